import { GOODS_FACTOR } from './goods-factor.ts'
import { PARAMETERS } from './pot-belief.ts'
import { lossW, type PotModel, type PotNow, powerW, stepModel, tuned, type TunedPot } from './pot-model.ts'
import type { TraceStep } from './pot-trace.ts'
import type { Miss, Since } from './wander.ts'

/** Draughts move the loss, and mains the power, by such shares of them (judged; the trace has its say). */
const SWAY = { ofLoss: 0.03, ofPower: 0.02 } as const

/** Model minus reading along a trace, °C, for every mean reading but those where the model starts anew. */
export function missesAlong(model: PotModel, at: readonly number[], steps: readonly TraceStep[]): number[] {
  const pot = tuned(model, at)
  const misses: number[] = []
  const powers = new Map<number, number>()
  const powerOf = (dial: number) => {
    if (!powers.has(dial)) powers.set(dial, powerW(pot, dial))
    return powers.get(dial)!
  }
  let now = startOf(pot, at[PARAMETERS]!, steps)
  let goodsIn = false
  for (const step of steps) {
    if (step.goodsIn !== goodsIn) {
      goodsIn = step.goodsIn
      now = heldBy(now, goodsIn ? GOODS_FACTOR : 1 / GOODS_FACTOR)
    }
    const setting = { intoW: powerOf(step.dial), lid: step.lid, roomC: at[PARAMETERS]! }
    now = stepModel(pot, setting, now, step.dtS)
    if (step.observedC === null) continue
    if (step.anew) now = anewFrom(now, step.observedC)
    else misses.push(now.probeC - step.observedC)
  }
  return misses
}

const heldBy = (now: PotNow, factor: number): PotNow => ({
  ...now,
  capacityJPerC: now.capacityJPerC * factor,
})

/** The probe's lead over the water is kept, so that a jump does not look like a rise. */
const anewFrom = (now: PotNow, observedC: number): PotNow => ({
  ...now,
  probeC: observedC,
  waterC: observedC + Math.max(-2, Math.min(2, now.waterC - now.probeC)),
})

/** A trace that begins warm with the dial on was heated before; one that begins cold was not. */
function startOf(pot: TunedPot, roomC: number, steps: readonly TraceStep[]): PotNow {
  const tempC = steps.find((step) => step.observedC !== null)!.observedC!
  const dial = steps.find((step) => step.dtS > 0)?.dial ?? 0
  const heatW = tempC > roomC + 25 ? powerW(pot, dial) : 0
  return { waterC: tempC, probeC: tempC, heatW, capacityJPerC: pot.capacityJPerC }
}

/** What is known of each miss beforehand: what may have carried the bath off since the one before, and its reading. */
export function missSetting(
  model: PotModel,
  at: readonly number[],
  steps: readonly TraceStep[],
): readonly Omit<Miss, 'missC'>[] {
  const pot = tuned(model, at)
  const settings: Omit<Miss, 'missC'>[] = []
  let minutes = 0
  let begun: Since | null = { kind: 'begins', roughC: 0 }
  let tempC = steps.find((step) => step.observedC !== null)!.observedC!
  for (const step of steps) {
    minutes += step.dtS / 60
    if (step.observedC === null) continue
    const lossCPerMin = (60 * lossW(pot, step.lid, at[PARAMETERS]!, tempC)) / pot.capacityJPerC
    const powerCPerMin = (60 * powerW(pot, step.dial)) / pot.capacityJPerC
    const swayCPerMin = Math.hypot(SWAY.ofLoss * lossCPerMin, SWAY.ofPower * powerCPerMin)
    if (!step.anew)
      settings.push({ roughC: step.roughC, since: begun ?? { kind: 'sways', minutes, swayCPerMin } })
    tempC = step.observedC
    begun = step.anew ? { kind: 'begins', roughC: step.roughC } : null
    minutes = 0
  }
  return settings
}
