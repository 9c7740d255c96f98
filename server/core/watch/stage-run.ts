import { GAP_MS } from '../measure/reading.ts'
import type { StageOutcome } from '../plan/outcome.ts'
import type { Stage } from '../plan/plan.ts'
import { type CoolingTrack, startCooling } from './cooling-track.ts'
import { binsOf, startHold } from './hold-clock.ts'
import { type Bin, type Point, binOf } from './hold-pieces.ts'
import { type GoodsTrail, type RunTrace, bookStretch, withoutHold } from './run-trace.ts'

/** One stage as it runs. Plain data; every function returns the next one. */
export interface StageRun {
  readonly stage: Stage
  readonly startedMs: number
  readonly endedMs: number | null
  readonly trace: RunTrace
  /** What `trace` was after each reading of the last minute, oldest first. */
  readonly earlier: readonly RunTrace[]
  readonly goods: GoodsTrail
  /** The probe is not in the bath: the time since the last reading is unknown whatever comes. */
  readonly blind: boolean
  /** For a cool-down. */
  readonly cooling: CoolingTrack | null
}

/** A stage begins; `before` is the last reading before it, so that the bath is known from the first moment. */
export function startRun(stage: Stage, atMs: number, before: Point | null, goodsIn: boolean): StageRun {
  const clock = stage.kind === 'hold' ? startHold(stage) : null
  return {
    stage,
    startedMs: atMs,
    endedMs: null,
    trace: { last: before, clock, range: null, holdRange: null },
    earlier: [],
    goods: { goodsIn, changes: [] },
    blind: false,
    cooling: stage.kind === 'cool' ? startCooling() : null,
  }
}

/**
 * A believed reading. Of a stage that has ended the first one after its end still settles the last moments; one at the
 * very end is its own, unless another stage `follows`.
 */
export function noteReading(run: StageRun, reading: Point, follows: boolean): StageRun {
  const { last } = run.trace
  const endMs = run.endedMs ?? Infinity
  if (last !== null && last.atMs >= endMs) return run
  const isBeforeEnd = reading.atMs < endMs || (reading.atMs === endMs && !follows)
  const counts = reading.atMs >= run.startedMs && isBeforeEnd
  const from = last ?? reading
  const stretch = {
    from,
    to: reading,
    clipFromMs: Math.max(from.atMs, run.startedMs),
    clipToMs: Math.min(reading.atMs, endMs),
    blind: run.blind,
  }
  const trace = bookStretch(run.trace, stretch, run.goods, counts)
  const goodsIn = run.goods.changes.at(-1)?.goodsIn ?? run.goods.goodsIn
  return {
    ...run,
    trace,
    earlier: kept(run.earlier, run.trace, reading.atMs),
    goods: { goodsIn, changes: [] },
    blind: false,
  }
}

/** Far enough back for a slow probe's last two readings, too. */
function kept(earlier: readonly RunTrace[], now: RunTrace, atMs: number): readonly RunTrace[] {
  const first = earlier.findIndex((t) => t.last !== null && t.last.atMs >= atMs - GAP_MS)
  const from = Math.min(first < 0 ? earlier.length : first, Math.max(0, earlier.length - 2))
  const next = earlier.slice(Math.max(0, from))
  next.push(now)
  return next
}

export function noteGoods(run: StageRun, atMs: number, goodsIn: boolean): StageRun {
  if (run.endedMs !== null) return run
  return { ...run, goods: { ...run.goods, changes: [...run.goods.changes, { atMs, goodsIn }] } }
}

/** The goods went in now and not before, against what was taken for granted. */
export function noteGoodsOnlyNow(run: StageRun, atMs: number): StageRun {
  const fresh = { ...run, trace: withoutHold(run.trace), earlier: [], goods: { goodsIn: false, changes: [] } }
  return noteGoods(fresh, atMs, true)
}

/** It turned out that since `sinceMs` the probe has not been in the bath: go back there and know nothing. */
export function noteBlind(run: StageRun, sinceMs: number): StageRun {
  const traces = [...run.earlier, run.trace]
  const back = traces.findLast((t) => t.last !== null && t.last.atMs <= sinceMs) ?? traces[0]!
  const goodsIn = run.goods.changes.at(-1)?.goodsIn ?? run.goods.goodsIn
  return { ...run, trace: back, earlier: [], goods: { goodsIn, changes: [] }, blind: true }
}

export const endRun = (run: StageRun, atMs: number): StageRun => ({ ...run, endedMs: run.endedMs ?? atMs })

/**
 * The trace as it stands at a moment: what came after the last reading is taken to be as that was, for as
 * long as a gap may last, and unknown as a whole from then on.
 */
export function traceAt(run: StageRun, atMs: number): RunTrace {
  const untilMs = Math.min(atMs, run.endedMs ?? atMs)
  const { last } = run.trace
  if (last === null || last.atMs >= untilMs) return run.trace
  const stretch = {
    from: last,
    to: { atMs: untilMs, tempC: last.tempC },
    clipFromMs: Math.max(last.atMs, run.startedMs),
    clipToMs: untilMs,
    blind: run.blind,
  }
  return bookStretch(run.trace, stretch, run.goods, false)
}

/** What a stage came to, up to a moment. */
export function outcomeOf(run: StageRun, atMs: number): StageOutcome {
  const trace = traceAt(run, atMs)
  const began = trace.clock !== null && trace.clock.beganMs !== null
  const range = began ? trace.holdRange : trace.range
  return {
    id: run.stage.id,
    startedMs: run.startedMs,
    endedMs: run.endedMs ?? atMs,
    bins: trace.clock === null ? null : binsOf(trace.clock),
    minC: range?.minC ?? null,
    maxC: range?.maxC ?? null,
    doneMs: trace.clock?.doneMs ?? null,
  }
}

/** Which bin the present moment falls into; `null` for a stage without a hold. */
export function binNow(run: StageRun, atMs: number): Bin | null {
  const { clock, last } = run.trace
  if (clock === null) return null
  if (last === null || run.blind || atMs - last.atMs > GAP_MS) return 'unknown'
  const goodsIn = run.goods.changes.at(-1)?.goodsIn ?? run.goods.goodsIn
  return clock.needsGoods && !goodsIn ? 'goodsOut' : binOf(last.tempC, clock.bounds)
}

/** The probe was taken to another pot: what comes until it is back is unknown. */
export const noteAway = (run: StageRun): StageRun => ({ ...run, blind: run.trace.last !== null })
