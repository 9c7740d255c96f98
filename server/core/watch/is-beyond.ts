import type { PotView } from './pot-view.ts'
import { countingErrorC } from './probe-noise.ts'
import { lagOf } from './probe-sense.ts'
import { straightCourse } from './straight-course.ts'

/** So many standard deviations past a bound the line of the latest readings is past it beyond doubt (our choice). */
const SURELY_SIGMAS = 3.5
/** By so much no doubt is left, °C. */
const SURELY_C = 0.15
/** While there is no line yet, just after a step. */
const SWING_C = 0.02

/**
 * Is the bath past a bound above it (`side` 1) or below it (−1)? The line on which the readings have lain for a while
 * must be: a bath that creeps over its bound shows on it long before a single reading is sure, and a bath that is held
 * exactly on its bound does not, however much the probe trembles.
 */
export function isBeyond({ tempC, probe, course }: PotView, limitC: number, side: 1 | -1): boolean {
  if (tempC === null || !probe?.estimate) return false
  const { noise } = probe.estimate
  const line = straightCourse(course, noise)
  if (line === null) return side * (tempC - limitC) > SWING_C
  const bathC = line.levelC + (line.rateCPerMin * lagOf(probe)) / 60
  const surelyC = Math.min(SURELY_SIGMAS * line.levelSpreadC, SURELY_C) + countingErrorC(noise)
  return side * (bathC - limitC) > surelyC
}
