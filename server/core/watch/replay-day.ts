import type { Vessel } from '../bath/vessel.ts'
import { type BeliefState, believe, startBelief } from '../measure/believe.ts'
import type { Sample } from '../measure/reading.ts'
import type { Plan } from '../plan/plan.ts'
import type { Happening } from './happening.ts'
import { type StoveState, startStove, stepStove } from './stove.ts'
import type { StoveInput } from './stove-input.ts'
import type { Trace, TraceMoment } from './trace-moment.ts'
import type { WatchSettings } from './watch-settings.ts'

export interface ReplaySetup {
  readonly plan: Plan
  readonly vessel: Vessel | null
  /** Seconds; `null`: learned from the trace where it shows. */
  readonly lagS: number | null
  readonly settings?: WatchSettings
}

export interface ReplayEnd {
  readonly state: StoveState
  /** The time of the last row, Unix ms. */
  readonly endMs: number
  /** Readings that were believed, and those that were not. */
  readonly used: number
  readonly disbelieved: number
}

export const REPLAY_POT = 'trace'
const TICK_MS = 1000

/**
 * A recorded trace through the code that watches a live bath, under the trace's own clock: at each time the
 * events, then the reading, then a tick; and a tick each second in between.
 * @param told each happening, in order, with the state after it
 */
export function replayDay(
  trace: Trace,
  setup: ReplaySetup,
  told: (happening: Happening, state: StoveState) => void,
  ticked: (atMs: number, state: StoveState) => void = () => {},
): ReplayEnd {
  const [first] = trace.moments
  if (first === undefined) throw new RangeError('a trace has at least one moment')
  let state = startStove(setup.settings)
  let belief = startBelief()
  let used = 0
  let disbelieved = 0
  let tickMs = first.atMs
  const feed = (input: StoveInput) => {
    const step = stepStove(state, input)
    state = step.state
    for (const happening of step.happenings) told(happening, state)
  }
  const tick = () => {
    feed({ kind: 'tick', atMs: tickMs })
    ticked(tickMs, state)
    tickMs += TICK_MS
  }
  for (const input of opening(trace, setup, first.atMs)) feed(input)
  for (const moment of trace.moments) {
    while (tickMs < moment.atMs) tick()
    for (const event of moment.events) feed({ kind: 'event', atMs: moment.atMs, potId: REPLAY_POT, event })
    const sample = sampleOf(moment)
    if (sample !== null) {
      const { belief: next, input, isGood } = judged(belief, sample)
      belief = next
      if (isGood) used += 1
      else if (moment.tempC !== null) disbelieved += 1
      feed(input)
    }
    if (tickMs === moment.atMs) tick()
  }
  return { state, endMs: trace.moments.at(-1)!.atMs, used, disbelieved }
}

/** The pot, its probe, the batch; and the first stage where the trace names none. */
function opening(trace: Trace, { plan, vessel, lagS }: ReplaySetup, atMs: number): readonly StoveInput[] {
  const potId = REPLAY_POT
  const isNamed = trace.moments.some((m) => m.events.some((e) => e.kind === 'stage'))
  const [stage] = plan.stages
  const start: readonly StoveInput[] =
    isNamed || stage === undefined
      ? []
      : [{ kind: 'event', atMs, potId, event: { kind: 'stage', stageId: stage.id } }]
  return [
    { kind: 'pot', atMs, potId, pot: { title: vessel?.title ?? 'Trace', vessel, lagS } },
    { kind: 'assign', atMs, potId, probe: REPLAY_POT, use: 'on' },
    { kind: 'batch', atMs, potId, batchId: 1, plan, dryWeightG: null, goodsIn: startsWithGoods(trace) },
    ...start,
  ]
}

/** In throughout where nobody said a word; else the opposite of the first word. */
function startsWithGoods({ moments }: Trace): boolean {
  const first = moments.flatMap((m) => m.events).find((e) => e.kind === 'goods-in' || e.kind === 'goods-out')
  return first?.kind !== 'goods-in'
}

function sampleOf({ atMs, tempC, found }: TraceMoment): Sample | null {
  if (tempC !== null) return { kind: 'temp', probe: REPLAY_POT, atMs, rawC: tempC }
  return found === null ? null : { kind: 'fault', probe: REPLAY_POT, atMs, fault: 'error-code', found }
}

function judged(belief: BeliefState, sample: Sample) {
  const { state, reading } = believe(belief, sample, (rawC) => rawC)
  const isGood = reading.kind === 'temp' && reading.verdict === 'good'
  return { belief: state, input: { kind: 'reading', atMs: sample.atMs, reading } as const, isGood }
}
