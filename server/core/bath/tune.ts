import { heatDial, holdDial, type Ranged, spreadOf, type Standing, steadyC } from './advise.ts'
import { type Evidence, learnAll } from './evidence.ts'
import { coldPot, planHeatUp } from './heat-up.ts'
import { AT, type PotBelief } from './pot-belief.ts'
import { lossW, potModel, powerW, tuned } from './pot-model.ts'
import type { PotTrace } from './pot-trace.ts'
import type { Vessel } from './vessel.ts'

/** What was learned of a pot and how to set it; what the traces can't tell is `null`, and `missing` says why. */
export interface Tuning {
  readonly heatCapacityJPerC: number
  readonly deadTimeS: number | null
  readonly lossWAtTarget: number | null
  readonly dials: readonly TunedDial[]
  readonly advice: TuningAdvice
  readonly standing: Standing
  /** The traces never noted the lid: it was judged from the losses. */
  readonly lidJudged: boolean
  /** Root of the mean squared misfit of each trace, °C; `null` for one that held too little. */
  readonly misfitsC: readonly (number | null)[]
  readonly missing: readonly Missing[]
  readonly belief: PotBelief
}

export interface TunedDial {
  readonly dial: number
  readonly watts: number | null
  readonly steady: Ranged | null
}

export interface TuningAdvice {
  readonly hold: Ranged | null
  readonly heatDial: number | null
  readonly turnDownAtC: number | null
  readonly expectedPeakC: number | null
  readonly toTargetS: number | null
}

export type Missing =
  | { readonly kind: 'no-trace' }
  | { readonly kind: 'dead-time' }
  | { readonly kind: 'loss' }
  | { readonly kind: 'dial'; readonly dial: number }
  | { readonly kind: 'steady'; readonly dial: number }
  | { readonly kind: 'hold-uncertain'; readonly low90: number; readonly high90: number }
  | { readonly kind: 'hold-out-of-reach' }
  | { readonly kind: 'target-in-the-room' }
  | { readonly kind: 'heat-up' }

/** Spreads beyond which a number would be a guess: of a logarithm, of a temperature, of the dial's way. */
const TOO_WIDE = { deadTime: 0.35, loss: 0.3, power: 0.3, steadyC: 40, hold01: 0.5 } as const

/** Learns from all traces, the oldest first, and works out the advice for one target. */
export function tunePot(vessel: Vessel, traces: readonly PotTrace[], targetC: number): Tuning {
  const { evidence, lid, lidJudged } = learnLidded(vessel, traces)
  const { belief } = evidence
  const pot = tuned(potModel(vessel), belief.mean)
  const standing = { lid, roomC: roomOf(vessel, evidence) }
  const missing: Missing[] = []
  const told = <T>(value: T, isKnown: boolean, why: Missing): T | null => {
    if (!isKnown) missing.push(why)
    return isKnown ? value : null
  }
  const known = evidence.learned.some((one) => one.misfitC !== null)
  if (!known) missing.push({ kind: 'no-trace' })
  const spread = (of: (parameters: readonly number[]) => number) => spreadOf(belief, of)
  const lossAt = (p: readonly number[]) => lossW(tuned(pot.model, p), lid, standing.roomC, targetC)
  const lossSpread = spread((p) => Math.log(Math.max(1, lossAt(p))))
  return {
    heatCapacityJPerC: pot.capacityJPerC,
    deadTimeS: told(pot.elementLagS, known && spread((p) => p[AT.elementLag]!) < TOO_WIDE.deadTime, {
      kind: 'dead-time',
    }),
    lossWAtTarget: told(lossAt(belief.mean), known && lossSpread < TOO_WIDE.loss, { kind: 'loss' }),
    dials: dialsOf(traces).map((dial) => dialRow(belief, dial, standing, told)),
    advice: adviceFor(belief, targetC, standing, known, dialsOf(traces), missing),
    standing,
    lidJudged,
    misfitsC: evidence.learned.map((one) => one.misfitC),
    missing,
    belief,
  }
}

type Told = <T>(value: T, isKnown: boolean, why: Missing) => T | null

function dialRow(belief: PotBelief, dial: number, standing: Standing, told: Told): TunedDial {
  const model = potModel(belief.vessel)
  const watts = (p: readonly number[]) => powerW(tuned(model, p), dial)
  const isKnown = spreadOf(belief, (p) => Math.log(watts(p))) < TOO_WIDE.power
  const steady = steadyC(belief, dial, standing)
  const isNarrow = isKnown && steady.high90 - steady.low90 < TOO_WIDE.steadyC
  return {
    dial,
    watts: told(watts(belief.mean), isKnown, { kind: 'dial', dial }),
    steady: isKnown ? told(steady, isNarrow, { kind: 'steady', dial }) : null,
  }
}

const NO_ADVICE = { hold: null, heatDial: null, turnDownAtC: null, expectedPeakC: null, toTargetS: null }

function adviceFor(
  belief: PotBelief,
  targetC: number,
  standing: Standing,
  known: boolean,
  dials: readonly number[],
  missing: Missing[],
): TuningAdvice {
  if (!known) return NO_ADVICE
  if (targetC <= standing.roomC) {
    missing.push({ kind: 'target-in-the-room' })
    return NO_ADVICE
  }
  const { dialMax } = belief.vessel.burner
  const heat = heatDialOf(belief, standing, dials)
  const hold = holdDial(belief, targetC, standing)
  if (hold === null) {
    missing.push({ kind: 'hold-out-of-reach' })
    return { ...NO_ADVICE, heatDial: heat }
  }
  if (hold.high90 - hold.low90 > TOO_WIDE.hold01 * dialMax) {
    missing.push({ kind: 'hold-uncertain', low90: hold.low90, high90: hold.high90 })
    return { ...NO_ADVICE, heatDial: heat }
  }
  const pot = tuned(potModel(belief.vessel), belief.mean)
  const start = coldPot(pot, standing.roomC)
  const plan = heat === null ? null : planHeatUp(belief, start, targetC, { heat, hold: hold.value }, standing)
  if (plan === null) missing.push({ kind: 'heat-up' })
  return {
    hold,
    heatDial: heat,
    turnDownAtC: plan?.turnDownAtC ?? null,
    expectedPeakC: plan?.peakC ?? null,
    toTargetS: plan?.toTargetS ?? null,
  }
}

/** The top of the dial where its power is known well enough, else the highest dial that was. */
function heatDialOf(belief: PotBelief, standing: Standing, dials: readonly number[]): number | null {
  const top = heatDial(belief, standing.roomC, standing)
  const model = potModel(belief.vessel)
  const isKnown = (dial: number) =>
    spreadOf(belief, (p) => Math.log(powerW(tuned(model, p), dial))) < TOO_WIDE.power
  return [...dials, top].sort((a, b) => b - a).find(isKnown) ?? null
}

function dialsOf(traces: readonly PotTrace[]): readonly number[] {
  const seen = traces.flatMap(({ events }) =>
    events.flatMap(({ event }) => (event.kind === 'dial' && event.dial > 0 ? [event.dial] : [])),
  )
  return [...new Set(seen)].sort((a, b) => a - b)
}

interface Lidded {
  readonly evidence: Evidence
  readonly lid: 'on' | 'off'
  readonly lidJudged: boolean
}

/** Learns with the lid as noted; where it never was, with the lid that explains the traces better. */
function learnLidded(vessel: Vessel, traces: readonly PotTrace[]): Lidded {
  const noted = traces.flatMap(({ events }) =>
    events.flatMap(({ event }) => (event.kind === 'lid' ? [event] : [])),
  )
  const last = noted.at(-1)
  if (last !== undefined) return { evidence: learnAll(vessel, traces), lid: last.lid, lidJudged: false }
  const lidded = learnAll(vessel, traces)
  const open = learnAll(vessel, traces.map(withoutLid))
  // A lid is the usual thing: an open pot must explain the traces clearly better.
  return costOf(open) < costOf(lidded) - 6
    ? { evidence: open, lid: 'off', lidJudged: true }
    : { evidence: lidded, lid: 'on', lidJudged: true }
}

const costOf = (evidence: Evidence): number => evidence.learned.reduce((sum, one) => sum + one.cost, 0)

const withoutLid = (trace: PotTrace): PotTrace => ({
  ...trace,
  events: [{ atMs: trace.readings[0]?.atMs ?? 0, event: { kind: 'lid', lid: 'off' } }, ...trace.events],
})

/** The vessel's word for the air; else the mean of what fitted the traces. */
function roomOf(vessel: Vessel, evidence: Evidence): number {
  const found = evidence.learned.map((one) => one.surroundingsC)
  return (
    vessel.surroundingsC ?? (found.length === 0 ? 20 : found.reduce((sum, c) => sum + c, 0) / found.length)
  )
}
