import { type Course, rateOver, smoothPart } from '../course.ts'
import type { Point } from '../hold-pieces.ts'
import type { PotView } from '../pot-view.ts'
import { readingVariance, trembleOf } from '../probe-noise.ts'
import type { ProbeSense } from '../probe-sense.ts'

const MINUTE_MS = 60_000
const FIVE_MIN_MS = 5 * MINUTE_MS
/** Of a five minutes' fall a single minute has a fifth; half of that leaves room for a coarse probe (our choice). */
const LEAST_SHARE = 0.1
/** A stir, a jug of hot water: as much as this in as little time is a step, not a burner (our choice). */
const STEP_MS = 90_000

/** How much the bath fell in its steepest minute and a half of late, °C. */
export function steepestFallC(course: Course, fromMs: number): number {
  const fallen = course.marks.map(({ atMs, tempC }) => ({ atMs, tempC: -tempC }))
  return steepestC({ ...course, marks: fallen }, fromMs)
}

/** How much the bath rose in its steepest minute and a half of late, °C. */
export function steepestC(course: Course, fromMs: number): number {
  const points = course.marks.filter((p) => p.atMs >= fromMs)
  let steepest = 0
  for (let i = 0, j = 0; j < points.length; j++) {
    while (points[j]!.atMs - points[i]!.atMs > STEP_MS) i++
    steepest = Math.max(steepest, points[j]!.tempC - points[i]!.tempC)
  }
  return steepest
}

/** Standard error of a straight line's slope through the readings of a span, °C/min: σ √12 / (span √n). */
export function rateErrorCPerMin(probe: ProbeSense | null, spanMs: number): number {
  if (probe === null || probe.estimate === null || probe.periodMs === null) return 0
  const deviationC = Math.sqrt(readingVariance(probe.estimate.noise, probe.periodMs))
  return (deviationC * Math.sqrt((12 * probe.periodMs) / spanMs)) / (spanMs / MINUTE_MS)
}

/**
 * How far the bath has risen over its lowest since a moment, °C, and since when: the last time that it was as
 * low as that, but for what the probe trembles. `null` when it has not, or when the rise came as one step.
 */
export function slopeRise(
  { course, tempC, probe }: PotView,
  fromMs: number,
): { readonly riseC: number; readonly sinceMs: number } | null {
  const points = smoothPart(course, fromMs)
  if (tempC === null || points.length < 2) return null
  const lowestC = Math.min(...points.map((p) => p.tempC))
  const riseC = tempC - lowestC
  if (steepestC(course, points[0]!.atMs) > 0.6 * riseC) return null
  return { riseC, sinceMs: lastLowMs(points, lowestC, probe)! }
}

/** The last time that the bath was as low as that, but for what the probe trembles; `null`: it never was. */
export function lastLowMs(
  points: readonly Point[],
  lowestC: number,
  probe: ProbeSense | null,
): number | null {
  const trembleC = probe?.estimate ? trembleOf(probe.estimate.noise) : 0
  return points.findLast((p) => p.tempC <= lowestC + trembleC)?.atMs ?? null
}

/**
 * Falling for five minutes: what ends an alarm about heat that should not be on. A bath that stood still and
 * has just begun to fall may be a thermostat's pause, so its first and its last minute must have their share, too.
 */
export function isFalling({ course, tempC, atMs }: PotView): boolean {
  const rate = rateOver(course, atMs, FIVE_MIN_MS)
  const beforeC = (agoMs: number) =>
    course.marks.findLast((p) => p.atMs <= atMs - agoMs && p.atMs >= course.smoothSinceMs)?.tempC
  const [first, second, last] = [beforeC(FIVE_MIN_MS), beforeC(FIVE_MIN_MS - MINUTE_MS), beforeC(MINUTE_MS)]
  if (rate === null || rate >= 0 || tempC === null) return false
  if (first === undefined || second === undefined || last === undefined) return false
  const fallenC = first - tempC
  const shareC = LEAST_SHARE * fallenC
  return fallenC >= 0.05 && first - second >= shareC && last - tempC >= shareC
}
