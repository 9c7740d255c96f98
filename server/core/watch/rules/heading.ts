import { rateBefore, rateOver } from '../course.ts'
import { learnedMinutes } from '../learned-pot.ts'
import type { PotView } from '../pot-view.ts'

const SPAN_MS = 3 * 60_000
/** A burner turned up shows in a minute and a half, before three minutes' mean has it. */
const FRESH_SPAN_MS = 90_000
const FRESH_C_PER_MIN = 0.3
/** Slower than this is standing still as far as ten minutes go, °C/min. */
const STILL_C_PER_MIN = 0.015

/**
 * When the bath will pass a limit above it at its present course, minutes from now; `null`: not within
 * `withinMin`. A course that flattens out is followed as it flattens: a bath that coasts into its window
 * after the burner was turned down isn't leaving it.
 */
export function minutesUntil(view: PotView, limitC: number, withinMin: number): number | null {
  const { tempC, rateCPerMin: rate } = view
  if (tempC === null || rate === null || rate <= STILL_C_PER_MIN || tempC > limitC) return null
  const fast = rateOver(view.course, view.atMs, FRESH_SPAN_MS) ?? 0
  if (fast >= FRESH_C_PER_MIN && fast > 1.3 * rate) return within((limitC - tempC) / fast, withinMin)
  const before = rateBefore(view.course, view.atMs, SPAN_MS, SPAN_MS)
  const leftC = limitC - tempC
  const min = before !== null && before > rate * 1.1 ? flattening(rate, before, leftC) : leftC / rate
  return within(min, withinMin)
}

/**
 * The same for a pot that was learned: with dial and lid as noted, also while its element still warms up or cools
 * down. A bath that does not rise is on its way to nothing.
 */
export function minutesForeseen(view: PotView, limitC: number, withinMin: number): number | null {
  const { tempC, rateCPerMin: rate } = view
  if (tempC === null || rate === null || rate <= STILL_C_PER_MIN || tempC > limitC) return null
  const learned = learnedMinutes(view, limitC, withinMin)
  return learned === undefined ? minutesUntil(view, limitC, withinMin) : learned
}

/** For a limit that must not be passed: the sooner of both, so that nothing learned can quiet it. */
export function soonestMinutes(view: PotView, limitC: number, withinMin: number): number | null {
  const found = [minutesUntil, minutesForeseen].map((of) => of(view, limitC, withinMin))
  const minutes = found.filter((min) => min !== null)
  return minutes.length === 0 ? null : Math.min(...minutes)
}

const within = (min: number | null, withinMin: number): number | null =>
  min !== null && min <= withinMin ? min : null

/** The rate falls by the same share every three minutes; both rates are those of the middle of their spans. */
function flattening(rate: number, before: number, leftC: number): number | null {
  const spanMin = SPAN_MS / 60_000
  const fallMin = spanMin / Math.log(before / rate)
  const nowRate = rate * Math.exp(-spanMin / 2 / fallMin)
  const part = leftC / (nowRate * fallMin)
  return part >= 1 ? null : -fallMin * Math.log(1 - part)
}
