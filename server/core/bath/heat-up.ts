import { type Course, courseC, courseStates } from './course.ts'
import { lossW, type PotNow, potModel, powerW, tuned, type TunedPot } from './pot-model.ts'
import type { PotBelief } from './pot-belief.ts'
import { spreadOf, type Standing } from './advise.ts'

/** A way to bring the bath into its window: heat at one dial, turn down once, hold. */
export interface HeatUp {
  /** Turn the dial down when the probe is here, °C; the start when it must not be heated this way at all. */
  readonly turnDownAtC: number
  /**
   * Highest temperature within two hours of turning down, as is to be expected: where the hold dial is not known well
   * the bath may go on rising after it has coasted, °C.
   */
  readonly peakC: number
  /** From now until the bath is first at the target, s; `null` when it does not get there. */
  readonly toTargetS: number | null
}

/** The bath is let coast this far past the target, so that it surely arrives, °C. */
const PAST_C = 0.4

const STEP_S = 20
const LONGEST_S = 12 * 3600
const AFTER = { untilS: 7200, stepS: 60 } as const

/** When to turn from `heatDial` down to `holdDial`; `null` when this burner never gets the bath to the target. */
export function planHeatUp(
  belief: PotBelief,
  start: PotNow,
  targetC: number,
  dials: { readonly heat: number; readonly hold: number },
  standing: Standing,
): HeatUp | null {
  const pot = tuned(potModel(belief.vessel), belief.mean)
  const heating = heatingTo(pot, start, targetC, { dial: dials.heat, ...standing })
  if (heating === null) return null
  const afterwards = (index: number) =>
    courseC(pot, heating[index]!.now, { dial: dials.hold, ...standing }, AFTER)
  let low = 0
  let high = heating.length - 1
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2)
    if (Math.max(...afterwards(middle)) < targetC + PAST_C) low = middle
    else high = middle
  }
  const rest = afterwards(high)
  const coastsToC = Math.max(...rest)
  return {
    turnDownAtC: heating[high]!.now.probeC,
    peakC: coastsToC + risesOnC(coastsToC - rest.at(-1)!, driftC(belief, targetC, dials.hold, standing)),
    toTargetS: arrivalS(heating[high]!, rest, targetC),
  }
}

/**
 * How far the bath may drift off in that time because loss and power are known only so well, °C (one deviation). Of a
 * pot not learned yet it is not told: it would be all guess.
 */
function driftC(belief: PotBelief, targetC: number, hold: number, { lid, roomC }: Standing): number {
  if (belief.traces === 0) return 0
  const model = potModel(belief.vessel)
  const pot = tuned(model, belief.mean)
  const surplusW = (p: readonly number[]) => {
    const other = tuned(model, p)
    return powerW(other, hold) - lossW(other, lid, roomC, targetC)
  }
  const perC = (lossW(pot, lid, roomC, targetC + 1) - lossW(pot, lid, roomC, targetC - 1)) / 2
  const share = 1 - Math.exp((-perC * AFTER.untilS) / pot.capacityJPerC)
  return (spreadOf(belief, surplusW) / perC) * share
}

/** Mean of what a normal drift of this spread goes over `belowC`, °C. */
function risesOnC(belowC: number, spreadC: number): number {
  let over = 0
  let all = 0
  for (let z = -4; z <= 4; z += 0.25) {
    const weight = Math.exp((-z * z) / 2)
    over += weight * Math.max(0, z * spreadC - belowC)
    all += weight
  }
  return over / all
}

interface Moment {
  readonly atS: number
  readonly now: PotNow
}

/** The way up, the last moment the one at which the bath is at the target; `null`: it never is. */
function heatingTo(pot: TunedPot, start: PotNow, targetC: number, course: Course): readonly Moment[] | null {
  const states = courseStates(pot, start, course, { untilS: LONGEST_S, stepS: STEP_S })
  const past = states.findIndex((now) => now.waterC >= targetC)
  if (past < 0) return null
  const way = states.slice(0, Math.max(past, 1)).map((now, i) => ({ atS: i * STEP_S, now }))
  if (past === 0) return way
  const before = way.at(-1)!
  const share = (targetC - before.now.waterC) / (states[past]!.waterC - before.now.waterC)
  const stepS = share * STEP_S
  const last = courseStates(pot, before.now, course, { untilS: stepS, stepS }).at(-1)!
  return [...way, { atS: before.atS + stepS, now: last }]
}

function arrivalS(turned: Moment, rest: readonly number[], targetC: number): number | null {
  const at = rest.findIndex((tempC) => tempC >= targetC - NEAR_C)
  if (at < 0) return null
  if (at === 0) return turned.atS
  const along = (targetC - rest[at - 1]!) / (rest[at]! - rest[at - 1]!)
  return turned.atS + (at - 1 + Math.min(1, along)) * AFTER.stepS
}

/** A partial step lands this near to the target, °C. */
const NEAR_C = 0.02

/** A pot that stands in the room with its burner cold. */
export const coldPot = (pot: TunedPot, tempC: number): PotNow => ({
  waterC: tempC,
  probeC: tempC,
  heatW: 0,
  capacityJPerC: pot.capacityJPerC,
})
