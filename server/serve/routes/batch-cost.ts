import { type BatchCost, batchCost } from '#core/batch/cost'
import { currentRecord } from '#core/batch/current-record'
import { shareOfBath01 } from '#core/batch/shared-bath'
import { recordLineOf } from '#core/wire/record-line'
import { entriesOf, lotsOf } from '../../report/lots-of-bath.ts'
import { type StoredBatch, bathId } from '../../store/batches.ts'
import { batchEnergy } from '../heat/batch-energy.ts'
import { warmingEnergy } from '../heat/warming-energy.ts'
import type { Studio } from '../studio.ts'

/** Energy of a batch, kWh. `from`: typed by a person, the dial as noted, or the warming alone where no dial was noted. */
export interface EnergyOfBatch {
  readonly kWh: number
  readonly from: 'typed' | 'dial' | 'warming'
}

export interface CostOfBatch {
  readonly cost: BatchCost
  readonly energy: EnergyOfBatch | null
  readonly pricePerKWh: number | null
  readonly currency: string | null
  /** What this lot bears of the bath's dyes and energy; `null` while a lot's weight is missing: all of it is reckoned. */
  readonly share01: number | null
}

/** What a batch cost: goods, what was weighed at its lot's price, energy and minutes; of a shared bath its share. */
export async function costOfBatch(studio: Studio, batch: StoredBatch): Promise<CostOfBatch> {
  const { store, settings } = studio
  const lines = (await entriesOf(store, batch)).map(recordLineOf).filter((line) => line !== null)
  const { cost: noted, weighings } = currentRecord(lines)
  const lots = await store.stock.lots()
  const share01 = shareOfBath01(await lotsOf(store, batch), batch.id)
  const energy =
    noted.energyKWh === undefined
      ? await burnerEnergy(studio, batch, share01 ?? 1)
      : ({ kWh: noted.energyKWh, from: 'typed' } as const)
  const pricePerKWh = noted.pricePerKWh ?? settings().energyPricePerKWh ?? null
  const cost = batchCost({
    goodsCost: noted.goodsCost ?? null,
    energyKWh: energy?.kWh ?? null,
    pricePerKWh,
    handsOnMin: noted.handsOnMin ?? null,
    hourlyWage: noted.hourlyWage ?? null,
    materials: weighings.map(({ body }) => ({
      name: body.additive,
      grams: body.weighedG * (share01 ?? 1),
      pricePerKg: lots.find((lot) => lot.id === body.lotId)?.pricePerKg ?? null,
    })),
  })
  return { cost, energy, pricePerKWh, currency: noted.currency ?? settings().money ?? null, share01 }
}

/** Over all pots that the batch went through; `null` when none of them is known well enough, or nothing was heated. */
async function burnerEnergy(
  { store, burners, clock }: Studio,
  batch: StoredBatch,
  share01: number,
): Promise<EnergyOfBatch | null> {
  const nowMs = clock.nowMs()
  const events = await store.events.ofBatch(bathId(batch))
  const found = [...new Set(batch.stages.map((run) => run.potId))].flatMap((potId): EnergyOfBatch[] => {
    const belief = burners.beliefOf(potId)
    if (belief === null) return []
    const byDial = batchEnergy(belief, batch, potId, { events, nowMs, pricePerKWh: null })
    if (byDial !== null) return [{ kWh: byDial.kWh, from: 'dial' }]
    const runs = batch.stages.filter((run) => run.potId === potId)
    return [{ kWh: warmingEnergy(belief, runs, nowMs), from: 'warming' }]
  })
  const kWh = found.reduce((sum, one) => sum + one.kWh, 0) * share01
  if (kWh === 0) return null
  return { kWh, from: found.every(({ from }) => from === 'dial') ? 'dial' : 'warming' }
}
