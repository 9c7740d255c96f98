import { type Course, rateOver, smoothPart } from '../course.ts'
import type { PotView } from '../pot-view.ts'

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

/**
 * The lowest of the last `spanMs` without a step, and how far the bath has risen over it, °C; `null` when it
 * has not, or when the rise came as one step.
 */
export function slopeRise(
  { course, tempC, atMs }: PotView,
  spanMs: number,
): { readonly riseC: number; readonly sinceMs: number } | null {
  const points = smoothPart(course, atMs - spanMs)
  if (tempC === null || points.length < 2) return null
  const lowest = points.reduce((low, p) => (p.tempC <= low.tempC ? p : low))
  const riseC = tempC - lowest.tempC
  return steepestC(course, points[0]!.atMs) > 0.6 * riseC ? null : { riseC, sinceMs: lowest.atMs }
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
