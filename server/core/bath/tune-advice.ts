import { heatDial, holdDial, type Ranged, spreadOf, type Standing } from './advise.ts'
import { coldPot, planHeatUp } from './heat-up.ts'
import type { PotBelief } from './pot-belief.ts'
import { potModel, powerW, tuned } from './pot-model.ts'

export interface TuningAdvice {
  readonly hold: Ranged | null
  readonly heatDial: number | null
  readonly turnDownAtC: number | null
  readonly expectedPeakC: number | null
  readonly toTargetS: number | null
}

export type AdvicePart = keyof TuningAdvice

/** Why a number is missing. `open`: a part of the advice that can't be told either, for the reason before it. */
export type Missing =
  | { readonly kind: 'no-trace' }
  | { readonly kind: 'unlike'; readonly misfitC: number }
  | { readonly kind: 'no-heat' }
  | { readonly kind: 'dead-time' }
  | { readonly kind: 'loss' }
  | { readonly kind: 'dial'; readonly dial: number }
  | { readonly kind: 'steady'; readonly dial: number; readonly without: 'loss' | 'heat' }
  | { readonly kind: 'hold-uncertain'; readonly low90: number; readonly high90: number }
  | { readonly kind: 'too-weak' }
  | { readonly kind: 'too-strong' }
  | { readonly kind: 'target-in-the-room' }
  | { readonly kind: 'target-boils'; readonly boilingC: number }
  | { readonly kind: 'heat-up' }
  | { readonly kind: 'open'; readonly what: AdvicePart }

/** Beyond these a number would be a guess: the spread of ln power, the range as a share of the dial's way (judged). */
const TOO_WIDE = { power: 0.3, hold01: 0.25 } as const

/** Share of a dial's way under which nobody can set it (judged). */
const LOWEST01 = 0.02

export const NO_ADVICE: TuningAdvice = {
  hold: null,
  heatDial: null,
  turnDownAtC: null,
  expectedPeakC: null,
  toTargetS: null,
}

/** How to come to a target and hold it, and the first thing that stands against telling all of it. */
export function adviceFor(
  belief: PotBelief,
  targetC: number,
  standing: Standing,
  dials: readonly number[],
): TuningAdvice & { readonly missing: Missing | null } {
  const without = noNeedOfHeat(belief, targetC, standing, dials)
  if (without !== null) return { ...NO_ADVICE, missing: without }
  const heat = heatDialOf(belief, standing, dials)
  const hold = holdDial(belief, targetC, standing)
  const unheld = unheldFor(hold, belief.vessel.burner.dialMax)
  if (hold === null || unheld !== null) return { ...NO_ADVICE, heatDial: heat, missing: unheld }
  const start = coldPot(tuned(potModel(belief.vessel), belief.mean), standing.roomC)
  const plan = heat === null ? null : planHeatUp(belief, start, targetC, { heat, hold: hold.value }, standing)
  return {
    hold,
    heatDial: heat,
    turnDownAtC: plan?.turnDownAtC ?? null,
    expectedPeakC: plan?.peakC ?? null,
    toTargetS: plan?.toTargetS ?? null,
    missing: plan === null ? { kind: 'heat-up' } : null,
  }
}

function noNeedOfHeat(
  belief: PotBelief,
  targetC: number,
  standing: Standing,
  dials: readonly number[],
): Missing | null {
  const { boilingC } = potModel(belief.vessel)
  if (targetC >= boilingC) return { kind: 'target-boils', boilingC }
  if (targetC <= standing.roomC) return { kind: 'target-in-the-room' }
  return dials.length === 0 ? { kind: 'no-heat' } : null
}

function unheldFor(hold: Ranged | null, dialMax: number): Missing | null {
  if (hold === null) return { kind: 'too-weak' }
  if (hold.value < LOWEST01 * dialMax) return { kind: 'too-strong' }
  const { low90, high90 } = hold
  return high90 - low90 > TOO_WIDE.hold01 * dialMax ? { kind: 'hold-uncertain', low90, high90 } : null
}

/** The top of the dial where its power is known well enough, else the highest dial that was. */
function heatDialOf(belief: PotBelief, standing: Standing, dials: readonly number[]): number | null {
  const top = heatDial(belief, standing.roomC, standing)
  return [...dials, top].sort((a, b) => b - a).find((dial) => isPowerKnown(belief, dial)) ?? null
}

export function isPowerKnown(belief: PotBelief, dial: number): boolean {
  const model = potModel(belief.vessel)
  return spreadOf(belief, (p) => Math.log(powerW(tuned(model, p), dial))) < TOO_WIDE.power
}
