import type { Estimate } from './estimate.ts'
import type { Point } from './hold-pieces.ts'
import type { PotView } from './pot-view.ts'
import { type ProbeNoise, countingErrorC } from './probe-noise.ts'
import { type ProbeSense, lagOf } from './probe-sense.ts'
import { type StraightCourse, straightCourse } from './straight-course.ts'

/** So many standard deviations past a bound the line of the latest readings is past it beyond doubt (our choice). */
const SURELY_SIGMAS = 3.5
/** By so much no doubt is left, °C. */
const SURELY_C = 0.15
/** While there is no line yet, just after a step. */
const SWING_C = 0.02
/** A line leads away from a bound when its rate lies this many standard deviations over nothing (our choice). */
const LEADS_SIGMAS = 3
/**
 * The readings of so long must be past the bound themselves before a line may date the crossing; when they are on its
 * inside, the bath is back (our choice).
 */
const LATEST_MS = 20_000

/** The bath is past a bound; `sinceMs`: when the line on which its readings lie crossed it, where that can be told. */
export interface PastBound {
  readonly sinceMs?: number
}

/**
 * Is the bath past a bound above it (`side` 1) or below it (−1)? `null`: it is not, or not beyond doubt. The line on
 * which the readings have lain for a while must be: a bath that creeps over its bound shows on it long before a single
 * reading is sure, and a bath that is held exactly on its bound does not, however much the probe trembles. A bath that
 * is back is seen by its latest readings, sooner than by any line. A line that goes on leading away also dates the
 * crossing, so that what it took to be sure is not waited for a second time.
 */
export function pastBound(view: PotView, limitC: number, side: 1 | -1): PastBound | null {
  const { tempC, probe, course } = view
  if (tempC === null || !probe?.estimate) return null
  const { noise } = probe.estimate
  const latest = latestReadings(probe, probe.estimate, view.atMs)
  const latestC = side * (meanOf(latest) - limitC)
  if (latestC < -surelyInsideC(noise, latest.length)) return null
  const line = straightCourse(course, noise)
  if (line === null) return side * (tempC - limitC) > SWING_C ? {} : null
  const overC = side * (line.levelC + (line.rateCPerMin * lagOf(probe)) / 60 - limitC)
  if (overC <= Math.min(SURELY_SIGMAS * line.levelSpreadC, SURELY_C) + countingErrorC(noise, 0)) return null
  if (latestC <= 0) return {}
  const passedC = (Math.abs(line.rateCPerMin) * line.spanMs) / 60_000
  const errorC = Math.hypot(line.levelSpreadC, countingErrorC(noise, passedC))
  return crossed(line, side, overC - errorC, view.run?.startedMs ?? -Infinity)
}

/** So far inside a mean of so many readings is inside beyond doubt, °C: their trembling, and half a step. */
const surelyInsideC = (noise: ProbeNoise, count: number): number =>
  2 * Math.sqrt(noise.variance / count) + Math.sqrt(3) * countingErrorC(noise, 0)

/** Readings since the last step, the last one at the least; what was put aside as a slip may be none, and then the bath is there. */
function latestReadings({ recent }: ProbeSense, { aside, stepMs }: Estimate, atMs: number): readonly Point[] {
  const fromMs = aside[0]?.atMs ?? Math.max(stepMs, atMs - LATEST_MS)
  const latest = recent.filter((p) => p.atMs >= fromMs)
  return latest.length > 0 ? latest : recent.slice(-1)
}

const meanOf = (points: readonly Point[]): number =>
  points.reduce((sum, p) => sum + p.tempC, 0) / points.length

/** When a line that is over a bound by so much at its end crossed it, were it not before it and the stage began. */
function crossed(line: StraightCourse, side: 1 | -1, overC: number, startedMs: number): PastBound {
  const awayCPerMin = side * line.rateCPerMin
  if (!line.goesOn || awayCPerMin <= LEADS_SIGMAS * line.spreadCPerMin) return {}
  const agoMs = Math.min(line.spanMs, (Math.max(0, overC) / awayCPerMin) * 60_000)
  return { sinceMs: Math.max(startedMs, Math.ceil(line.endMs - agoMs)) }
}
