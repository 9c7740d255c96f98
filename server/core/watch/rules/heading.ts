import { rateBefore } from '../course.ts'
import type { PotView } from '../pot-view.ts'

const SPAN_MS = 3 * 60_000
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
  const before = rateBefore(view.course, view.atMs, SPAN_MS, SPAN_MS)
  const roomC = limitC - tempC
  const min = before !== null && before > rate * 1.1 ? flattening(rate, before, roomC) : roomC / rate
  return min !== null && min <= withinMin ? min : null
}

/** The rate falls by the same share every three minutes; both rates are those of the middle of their spans. */
function flattening(rate: number, before: number, roomC: number): number | null {
  const spanMin = SPAN_MS / 60_000
  const fallMin = spanMin / Math.log(before / rate)
  const nowRate = rate * Math.exp(-spanMin / 2 / fallMin)
  const part = roomC / (nowRate * fallMin)
  return part >= 1 ? null : -fallMin * Math.log(1 - part)
}
