import { currentRecord } from '#core/batch/current-record'
import type { LineOf } from '#core/batch/record-line'
import { roundToScale } from '#core/batch/scale-rounding'
import { type Shortage, shortages, stockLeft } from '#core/batch/stock'
import { bathDryG } from '#core/batch/shared-bath'
import { weighedDifference } from '#core/batch/weighed'
import { type StageNeeds, stageNeeds } from '#core/batch/weighing'
import { recordLineOf } from '#core/wire/record-line'
import { entriesOf, lotsOf } from '../../report/lots-of-bath.ts'
import type { StoredBatch } from '../../store/batches.ts'
import type { Studio } from '../studio.ts'

/** What a batch needs for all lots of its bath, stage by stage; empty while its goods have no weight. */
export async function batchNeeds(
  { store }: Studio,
  batch: StoredBatch,
  ask: { readonly step: number; readonly litres?: number | undefined },
): Promise<{ readonly stages: readonly object[]; readonly shortages: readonly Shortage[] }> {
  const entries = await entriesOf(store, batch)
  const record = currentRecord(entries.map(recordLineOf).filter((line) => line !== null))
  const dryWeightG = bathDryG(await lotsOf(store, batch))
  if (dryWeightG === null || dryWeightG === 0) return { stages: [], shortages: [] }
  const needs = batch.plan.stages.map((stage) => stageNeeds(stage, dryWeightG, ask.litres ?? null))
  const [lots, events] = await Promise.all([store.stock.lots(), store.stock.events()])
  return {
    stages: needs.map((stage) => shown(stage, ask.step, record.weighings)),
    shortages: shortages(stillNeeded(needs, record.weighings), lots, stockLeft(events)),
  }
}

function shown(needs: StageNeeds, stepG: number, weighings: readonly LineOf<'weighing'>[]) {
  return {
    ...needs,
    additives: needs.additives.map((need) => {
      const weighed = weighedOf(weighings, needs.stageId, need.name)
      return {
        name: need.name,
        needG: need.needG,
        scale: need.needG === null ? null : roundToScale(need.needG, stepG),
        weighedG: weighed ?? null,
        difference:
          weighed === undefined || need.needG === null ? null : weighedDifference(need.needG, weighed),
      }
    }),
  }
}

const weighedOf = (weighings: readonly LineOf<'weighing'>[], stageId: string, additive: string) =>
  weighings.findLast(({ body }) => body.stageId === stageId && body.additive === additive)?.body.weighedG

/** What is still to be weighed takes stock; what was weighed has taken it already. */
const stillNeeded = (needs: readonly StageNeeds[], weighings: readonly LineOf<'weighing'>[]) =>
  needs.flatMap(({ stageId, additives }) =>
    additives
      .filter(({ name }) => weighedOf(weighings, stageId, name) === undefined)
      .map(({ name, needG }) => ({ stageId, material: name, needG: needG ?? 0 })),
  )
