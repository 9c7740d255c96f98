import { believable } from '#core/bath/believable'
import { fitCooling } from '#core/bath/cooling'
import { reachesC } from '#core/bath/cooling-arrival'
import type { CourseAct } from '#core/bath/course'
import { forecastBath, type ForecastPoint, reachesS } from '#core/bath/forecast'
import type { PotBelief } from '#core/bath/pot-belief'
import type { Lid } from '#core/bath/pot-model'
import type { PotReading, PotTrace } from '#core/bath/pot-trace'
import type { Claim } from '../../store/heat.ts'
import type { BathDay, DayStage } from './bath-day.ts'

const MIN_MS = 60_000
/** A claim is made once the rate can be seen, and only when this much is still to come. */
const SEEN_MS = 3 * MIN_MS
const LEAST_AHEAD_MS = 10 * MIN_MS
/** How far ahead a peak is looked for, ms. */
const PEAK_MS = 60 * MIN_MS
/** A bath that only stands still has no peak, °C. */
const LEAST_RISE_C = 0.5
/** The cool-down's hour is told one hour in, as its own curve shows it then. */
const COOLING_MS = 60 * MIN_MS
const FAR_S = 6 * 3600

/**
 * What the belief of before this fill would have said, with dial and lid as they were then turned, against what
 * came: when the window was reached, how high the bath coasted, when it was cool enough.
 */
export function claimsOf(before: PotBelief, day: BathDay): readonly Claim[] {
  const readings = believable(day.trace.readings)
  const past = { ...day.trace, readings }
  return day.stages.flatMap((one) => {
    const { stage } = one
    if (stage.kind === 'cool') return coolClaim(before, past, one, stage.coolToC)
    if (stage.kind !== 'hold' && stage.kind !== 'keep-warm') return []
    return [...windowClaim(before, past, one, stage.windowC[0]), ...peakClaims(before, past, one)]
  })
}

function windowClaim(before: PotBelief, trace: PotTrace, one: DayStage, lowC: number): Claim[] {
  const came = within(trace, one).find((r) => r.tempC >= lowC)?.atMs
  if (came === undefined) return []
  const disturbed = trace.events.findLast((e) => e.atMs < came && isPoured(e.event.kind))?.atMs ?? 0
  const heated = heatedMs(trace, one, came)
  if (heated === null) return []
  const madeMs = Math.max(heated, disturbed) + SEEN_MS
  if (came - madeMs < LEAST_AHEAD_MS) return []
  const points = foreseen(before, trace, madeMs, FAR_S)
  if (points === null) return []
  const at = (of: (p: ForecastPoint) => number) => reachesS(points, points.map(of), lowC)
  const [mean, early, late] = [at((p) => p.tempC), at((p) => p.high90C), at((p) => p.low90C)]
  if (mean === null) return []
  const ms = (s: number) => Math.round(madeMs + s * 1000)
  return [
    {
      kind: 'window',
      stageId: one.stage.id,
      madeMs,
      told: ms(mean),
      low90: ms(early ?? mean),
      high90: ms(late ?? FAR_S),
      came,
      fromTraces: before.traces,
    },
  ]
}

/** Since when the dial has been on without a break before a moment. */
function heatedMs(trace: PotTrace, one: DayStage, untilMs: number): number | null {
  let since: number | null = null
  for (const { atMs, event } of trace.events) {
    if (event.kind !== 'dial' || atMs > untilMs) continue
    if (event.dial > 0) since ??= atMs
    else since = null
  }
  return since === null ? null : Math.max(since, one.startedMs)
}

/** After each turning down: how high the bath still went before anything else was done. */
function peakClaims(before: PotBelief, trace: PotTrace, one: DayStage): Claim[] {
  let dial = 0
  return trace.events.flatMap(({ atMs, event }) => {
    if (event.kind !== 'dial') return []
    const isDown = event.dial < dial
    dial = event.dial
    if (!isDown || atMs < one.startedMs || atMs >= one.endedMs) return []
    return peakClaim(before, trace, one, atMs)
  })
}

function peakClaim(before: PotBelief, trace: PotTrace, one: DayStage, turnedMs: number): Claim[] {
  const madeMs = turnedMs + 1000
  const next = trace.events.find((e) => e.atMs > turnedMs && isTouching(e.event.kind))?.atMs ?? Infinity
  const untilMs = Math.min(next, one.endedMs, madeMs + PEAK_MS)
  const after = trace.readings.filter((r) => r.atMs >= madeMs && r.atMs < untilMs)
  if (untilMs - madeMs < LEAST_AHEAD_MS || after.length < 5) return []
  const points = foreseen(before, trace, madeMs, (untilMs - madeMs) / 1000)
  if (points === null) return []
  const came = smoothedPeak(after)
  if (came - points[0]!.tempC < LEAST_RISE_C) return []
  const most = (of: (p: ForecastPoint) => number) => Math.max(...points.map(of))
  return [
    {
      kind: 'peak',
      stageId: one.stage.id,
      madeMs,
      told: most((p) => p.tempC),
      low90: most((p) => p.low90C),
      high90: most((p) => p.high90C),
      came,
      fromTraces: before.traces,
    },
  ]
}

/** The highest mean of five readings running: one trembling reading is no peak. */
function smoothedPeak(readings: readonly PotReading[]): number {
  let highest = -Infinity
  for (let i = 0; i + 5 <= readings.length; i++) {
    const mean = readings.slice(i, i + 5).reduce((sum, r) => sum + r.tempC, 0) / 5
    highest = Math.max(highest, mean)
  }
  return highest
}

function coolClaim(before: PotBelief, trace: PotTrace, one: DayStage, coolToC: number): Claim[] {
  const seen = within(trace, one)
  const came = seen.find((r) => r.tempC <= coolToC)?.atMs
  const madeMs = one.startedMs + COOLING_MS
  if (came === undefined || came - madeMs < LEAST_AHEAD_MS) return []
  const points = seen.filter((r) => r.atMs <= madeMs)
  const { lid } = standingAt(trace, madeMs)
  const fit = points.length < 10 ? null : fitCooling(points, { vessel: before.vessel, lid })
  const arrival = fit === null ? null : reachesC(fit, coolToC)
  if (arrival === null) return []
  return [
    {
      kind: 'cool',
      stageId: one.stage.id,
      madeMs,
      told: Math.round(arrival.atMs),
      low90: Math.round(arrival.early90Ms),
      high90: Math.round(arrival.late90Ms),
      came,
      fromTraces: before.traces,
    },
  ]
}

/** The way from a moment on with dial and lid as they were then turned; `null` where the bath was not seen. */
function foreseen(before: PotBelief, trace: PotTrace, madeMs: number, untilS: number) {
  const bath = bathAt(trace.readings, madeMs)
  if (bath === null) return null
  const { dial, lid, goodsIn } = standingAt(trace, madeMs)
  const roomC = trace.surroundingsC ?? before.vessel.surroundingsC ?? 20
  const acts = trace.events.flatMap(({ atMs, event }): CourseAct[] => {
    const afterS = (atMs - madeMs) / 1000
    if (afterS <= 0 || afterS > untilS) return []
    if (event.kind === 'dial') return [{ afterS, dial: event.dial }]
    return event.kind === 'lid' ? [{ afterS, lid: event.lid }] : []
  })
  const now = { ...bath, capacityFactor: goodsIn ? GOODS : 1 }
  return forecastBath(before, now, { dial, lid, roomC, acts }, { untilS, stepS: 60 })
}

/** Wet goods make the pot hold this much more heat; the same as in learning. */
const GOODS = 1.06

function bathAt(readings: readonly PotReading[], atMs: number) {
  const near = readings.filter((r) => r.atMs > atMs - SEEN_MS && r.atMs <= atMs)
  const [first, last] = [near[0], near.at(-1)]
  if (first === undefined || last === undefined || near.length < 4) return null
  const mean = near.reduce((sum, r) => sum + r.tempC, 0) / near.length
  const middleMs = near.reduce((sum, r) => sum + (r.atMs - first.atMs), 0) / near.length + first.atMs
  let [up, across] = [0, 0]
  for (const r of near) {
    up += (r.atMs - middleMs) * (r.tempC - mean)
    across += (r.atMs - middleMs) ** 2
  }
  const perMs = across === 0 ? 0 : up / across
  return { waterC: mean + perMs * (atMs - middleMs), rateCPerMin: perMs * MIN_MS }
}

function standingAt(trace: PotTrace, atMs: number) {
  let dial = 0
  let lid: Lid = 'on'
  let goodsIn = false
  for (const entry of trace.events) {
    if (entry.atMs > atMs) break
    const { event } = entry
    if (event.kind === 'dial') dial = event.dial
    if (event.kind === 'lid') lid = event.lid
    if (event.kind === 'goods-in' || event.kind === 'goods-out') goodsIn = event.kind === 'goods-in'
  }
  return { dial, lid, goodsIn }
}

const within = ({ readings }: PotTrace, { startedMs, endedMs }: DayStage) =>
  readings.filter((r) => r.atMs >= startedMs && r.atMs <= endedMs)

const isPoured = (kind: string): boolean => kind === 'goods-in' || kind === 'goods-out' || kind === 'top-up'
const isTouching = (kind: string): boolean => isPoured(kind) || kind === 'dial' || kind === 'lid'
