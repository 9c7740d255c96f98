import type { Point } from './hold-pieces.ts'
import { NO_MEANS, type ReadingMeans, withReading } from './reading-means.ts'

/** Where the bath has been of late: enough to tell a rate, small enough to hand on each second. */
export interface Course {
  /** Estimates five seconds apart, the last twelve minutes. */
  readonly marks: readonly Point[]
  /** Estimates a minute apart, the last hour. */
  readonly minutes: readonly Point[]
  /** The readings themselves, for what the estimate is still about to follow. */
  readonly means: ReadingMeans
  /** The bath has run on without a step since then. */
  readonly smoothSinceMs: number
}

const MARK_MS = 5000
const MARKS_MS = 12 * 60_000
const MINUTES_MS = 61 * 60_000
/** A probe needs about this long to follow a step. */
const SETTLE_MS = 30_000

export const startCourse = (atMs: number): Course => ({
  marks: [],
  minutes: [],
  means: NO_MEANS,
  smoothSinceMs: atMs,
})

/** Something was put or poured in: no rate is told across that moment. */
export const unsettled = (course: Course, untilMs: number): Course => ({
  ...course,
  smoothSinceMs: Math.max(course.smoothSinceMs, untilMs),
})

/** After one more reading and the estimate's level by then; `stepMs`: since when it has run on without a step. */
export function noteCourse(course: Course, reading: Point, levelC: number, stepMs: number): Course {
  const point = { atMs: reading.atMs, tempC: levelC }
  return {
    marks: thinned(course.marks, point, MARK_MS, MARKS_MS),
    minutes: thinned(course.minutes, point, 60_000, MINUTES_MS),
    means: withReading(course.means, reading),
    smoothSinceMs: Math.max(course.smoothSinceMs, stepMs + SETTLE_MS),
  }
}

function thinned(points: readonly Point[], point: Point, everyMs: number, keepMs: number): readonly Point[] {
  const last = points.at(-1)
  if (last !== undefined && point.atMs - last.atMs < everyMs) return points
  const first = points.findIndex((p) => p.atMs >= point.atMs - keepMs)
  return [...points.slice(first < 0 ? points.length : first), point]
}

/**
 * The bath's rate over the last `spanMs`, °C/min, by least squares; `null` until four fifths of that time
 * have been seen without a step.
 */
export function rateOver(course: Course, atMs: number, spanMs: number): number | null {
  const points = smoothPart(course, atMs - spanMs)
  const first = points[0]
  const last = points.at(-1)
  if (first === undefined || last === undefined || last.atMs - first.atMs < 0.8 * spanMs) return null
  return slope(points)
}

/** The same for a span that ended `agoMs` before. */
export function rateBefore(course: Course, atMs: number, spanMs: number, agoMs: number): number | null {
  const points = smoothPart(course, atMs - agoMs - spanMs).filter((p) => p.atMs <= atMs - agoMs)
  const first = points[0]
  const last = points.at(-1)
  if (first === undefined || last === undefined || last.atMs - first.atMs < 0.7 * spanMs) return null
  return slope(points)
}

/** Marks since a moment, the step and what the probe needed to follow it left out. */
export function smoothPart(course: Course, fromMs: number): readonly Point[] {
  const sinceMs = Math.max(fromMs, course.smoothSinceMs)
  const longAgo = fromMs < (course.marks[0]?.atMs ?? 0)
  const points = longAgo ? course.minutes : course.marks
  let from = points.length
  while (from > 0 && points[from - 1]!.atMs >= sinceMs) from -= 1
  return from === 0 ? points : points.slice(from)
}

function slope(points: readonly Point[]): number | null {
  const startMs = points[0]!.atMs
  const n = points.length
  let [sumX, sumY, sumXX, sumXY] = [0, 0, 0, 0]
  for (const p of points) {
    const x = (p.atMs - startMs) / 60_000
    sumX += x
    sumY += p.tempC
    sumXX += x * x
    sumXY += x * p.tempC
  }
  const spread = n * sumXX - sumX * sumX
  return spread <= 0 ? null : (n * sumXY - sumX * sumY) / spread
}
