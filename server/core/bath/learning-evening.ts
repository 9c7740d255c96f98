import { holdDial, spreadOf } from './advise.ts'
import type { PotBelief } from './pot-belief.ts'
import { type Lid, lossW, potModel, powerW, tuned } from './pot-model.ts'

/**
 * The guided evening with plain water, in the usual volume, somebody in the room all the time: full, a third, the
 * dial that should hold, off, lid off. The tool says what to turn and when; the dyer turns it. The two lower dials
 * lie where baths are held, so that the dials of later batches lie between noted ones.
 */
export const EVENING_STEPS = ['full', 'middle', 'low', 'off', 'lid-off'] as const
export type EveningStep = (typeof EVENING_STEPS)[number]

export type EveningState =
  | {
      readonly kind: 'running'
      readonly step: EveningStep
      readonly dial: number
      readonly lid: Lid
      readonly sinceMs: number
      readonly startC: number
    }
  | { readonly kind: 'done'; readonly atMs: number }

/** The bath now, and what has been learned so far (`learnFrom` over the readings since the start). */
export interface EveningNow {
  readonly atMs: number
  readonly tempC: number
  readonly belief: PotBelief
}

export interface EveningView {
  /** What dial and lid should be at now; `null` when it is over. */
  readonly set: { readonly dial: number; readonly lid: Lid } | null
  /** At most so many minutes more in this step. */
  readonly leftMin: number
  /** Is what this step is for known well enough? */
  readonly isEnough: boolean
  /** Steps behind, of all. */
  readonly stepsDone: number
}

/** Where a step ends at the latest, and how long it lasts at least and at most, minutes (common practice, no source). */
const LIMITS: Readonly<
  Record<EveningStep, { readonly untilC?: number; readonly leastMin: number; readonly mostMin: number }>
> = {
  full: { untilC: 70, leastMin: 5, mostMin: 120 },
  middle: { untilC: 82, leastMin: 10, mostMin: 30 },
  low: { leastMin: 25, mostMin: 40 },
  off: { leastMin: 45, mostMin: 75 },
  'lid-off': { leastMin: 20, mostMin: 30 },
}

/** Spread of a logarithm at which a power or a loss is known well enough. */
const ENOUGH = 0.06

export const startEvening = (belief: PotBelief, atMs: number, tempC: number): EveningState =>
  begin('full', { atMs, tempC, belief })

/** The evening a moment later; a step ends when it has what it is for, or at its limit. */
export function stepEvening(state: EveningState, now: EveningNow): EveningState {
  if (state.kind === 'done' || !isOver(state, now)) return state
  const next = EVENING_STEPS[EVENING_STEPS.indexOf(state.step) + 1]
  return next === undefined ? { kind: 'done', atMs: now.atMs } : begin(next, now)
}

export function viewEvening(state: EveningState, now: EveningNow): EveningView {
  if (state.kind === 'done') return { set: null, leftMin: 0, isEnough: true, stepsDone: EVENING_STEPS.length }
  const { step, dial, lid, sinceMs } = state
  return {
    set: { dial, lid },
    leftMin: Math.max(0, Math.ceil(leftMin(state, now, (now.atMs - sinceMs) / 60_000))),
    isEnough: isEnough(state, now),
    stepsDone: EVENING_STEPS.indexOf(step),
  }
}

type Running = Extract<EveningState, { kind: 'running' }>

function begin(step: EveningStep, now: EveningNow): Running {
  const lid = step === 'lid-off' ? 'off' : 'on'
  return { kind: 'running', step, dial: dialOf(step, now), lid, sinceMs: now.atMs, startC: now.tempC }
}

function dialOf(step: EveningStep, { belief, tempC }: EveningNow): number {
  const { dialMax } = belief.vessel.burner
  switch (step) {
    case 'full':
      return dialMax
    case 'middle':
      return half(dialMax * 0.35)
    case 'low': {
      const roomC = belief.vessel.surroundingsC ?? 20
      const hold = holdDial(belief, tempC, { lid: 'on', roomC })
      return Math.max(half(dialMax / 20), half(hold?.value ?? dialMax * 0.3))
    }
    case 'off':
    case 'lid-off':
      return 0
    default:
      return step satisfies never
  }
}

/** To the half marks that a dial has. */
const half = (dial: number): number => Math.round(dial * 2) / 2

function isOver(state: Running, now: EveningNow): boolean {
  const { leastMin, mostMin, untilC } = LIMITS[state.step]
  const minutes = (now.atMs - state.sinceMs) / 60_000
  if (minutes >= mostMin) return true
  if (minutes < leastMin) return false
  return untilC === undefined ? isEnough(state, now) : now.tempC >= untilC
}

/** Minutes to the limit of time, or to the temperature at the mean rate of this step so far if that is sooner. */
function leftMin(state: Running, now: EveningNow, minutes: number): number {
  const { leastMin, mostMin, untilC } = LIMITS[state.step]
  const inTime = mostMin - minutes
  if (untilC === undefined) return isEnough(state, now) ? leastMin - minutes : inTime
  const rate = minutes < 2 ? 0 : (now.tempC - state.startC) / minutes
  return rate <= 0 ? inTime : Math.min(inTime, Math.max(leastMin - minutes, (untilC - now.tempC) / rate))
}

function isEnough(state: Running, { belief, tempC }: EveningNow): boolean {
  const model = potModel(belief.vessel)
  const roomC = belief.vessel.surroundingsC ?? 20
  const spread = spreadOf(belief, (parameters) => {
    const pot = tuned(model, parameters)
    return Math.log(
      state.dial > 0 ? powerW(pot, state.dial) : lossW(pot, state.lid, roomC, Math.max(tempC, roomC + 10)),
    )
  })
  return spread < ENOUGH
}
