import { type Ranged, spreadOf, type Standing, steadyC } from './advise.ts'
import type { Evidence } from './evidence.ts'
import { AT, type PotBelief } from './pot-belief.ts'
import { lossW, potModel, powerW, tuned } from './pot-model.ts'
import type { PotTrace } from './pot-trace.ts'
import { adviceFor, isPowerKnown, type Missing, NO_ADVICE, type TuningAdvice } from './tune-advice.ts'
import { learnLidded } from './tune-lid.ts'
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

/** Spreads beyond which a number would be a guess: of a logarithm, of a temperature. */
const TOO_WIDE = { deadTime: 0.35, loss: 0.3, steadyC: 40 } as const

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
  const known = evidence.learned.some((one) => one.misfitC !== null && one.isLike)
  missing.push(...notLearned(evidence, known))
  const spread = (of: (parameters: readonly number[]) => number) => spreadOf(belief, of)
  const lossAt = (p: readonly number[]) => lossW(tuned(pot.model, p), lid, standing.roomC, targetC)
  const lossSpread = spread((p) => Math.log(Math.max(1, lossAt(p))))
  return {
    heatCapacityJPerC: pot.capacityJPerC,
    deadTimeS: told(pot.elementLagS, known && spread((p) => p[AT.elementLag]!) < TOO_WIDE.deadTime, {
      kind: 'dead-time',
    }),
    lossWAtTarget: told(
      lossAt(belief.mean),
      known && lossSpread < TOO_WIDE.loss && targetC <= pot.model.boilingC,
      { kind: 'loss' },
    ),
    dials: dialsOf(traces).map((dial) => dialRow(belief, dial, standing, told)),
    advice: advised(known ? adviceFor(belief, targetC, standing, dialsOf(traces)) : NOTHING, missing),
    standing,
    lidJudged,
    misfitsC: evidence.learned.map((one) => one.misfitC),
    missing,
    belief,
  }
}

/** Why nothing came of a trace. */
function notLearned({ learned }: Evidence, known: boolean): readonly Missing[] {
  const unlike = learned.flatMap(({ misfitC, isLike }) =>
    misfitC === null || isLike ? [] : [{ kind: 'unlike', misfitC } as const],
  )
  return known || unlike.length > 0 ? unlike : [{ kind: 'no-trace' }]
}

type Told = <T>(value: T, isKnown: boolean, why: Missing) => T | null

function dialRow(belief: PotBelief, dial: number, standing: Standing, told: Told): TunedDial {
  const model = potModel(belief.vessel)
  const watts = (p: readonly number[]) => powerW(tuned(model, p), dial)
  const isKnown = isPowerKnown(belief, dial)
  const steady = steadyC(belief, dial, standing)
  const isNarrow = isKnown && steady.high90 - steady.low90 < TOO_WIDE.steadyC
  return {
    dial,
    watts: told(watts(belief.mean), isKnown, { kind: 'dial', dial }),
    steady: told(steady, isNarrow, { kind: 'steady', dial, without: isKnown ? 'loss' : 'heat' }),
  }
}

/** Why nothing was learned is said before it comes to the advice. */
const NOTHING = { ...NO_ADVICE, missing: null }

/** The advice, and why parts of it are missing: the reason, which speaks for one of them, and each of the others. */
function advised({ missing, ...advice }: ReturnType<typeof adviceFor>, all: Missing[]): TuningAdvice {
  const spokenFor = missing === null ? null : missing.kind === 'heat-up' ? 'turnDownAtC' : 'hold'
  if (missing !== null) all.push(missing)
  for (const what of PARTS) if (advice[what] === null && what !== spokenFor) all.push({ kind: 'open', what })
  return advice
}

const PARTS = ['hold', 'heatDial', 'turnDownAtC', 'expectedPeakC', 'toTargetS'] as const

function dialsOf(traces: readonly PotTrace[]): readonly number[] {
  const seen = traces.flatMap(({ events }) =>
    events.flatMap(({ event }) => (event.kind === 'dial' && event.dial > 0 ? [event.dial] : [])),
  )
  return [...new Set(seen)].sort((a, b) => a - b)
}

/** The vessel's word for the air; else the mean of what fitted the traces. */
function roomOf(vessel: Vessel, evidence: Evidence): number {
  const found = evidence.learned.map((one) => one.surroundingsC)
  return (
    vessel.surroundingsC ?? (found.length === 0 ? 20 : found.reduce((sum, c) => sum + c, 0) / found.length)
  )
}
