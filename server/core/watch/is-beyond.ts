import type { PotView } from './pot-view.ts'

/** Far enough past a bound that no filter's swing explains it, °C; it grows with the rate and the period. */
const SURELY_C = { least: 0.02, most: 0.15, perCPerMin: 0.12 }
const SURELY_C_PER_PERIOD_S = 0.003
const LATELY_MS = 10_000

/**
 * Is the bath past a bound, as the estimate has it and the readings bear out? A filter swings a little past a
 * corner; a bath that was brought exactly to its bound must not ring for that.
 */
export function isBeyond({ tempC, probe, rateCPerMin, atMs }: PotView, limitC: number): boolean {
  if (tempC === null || probe === null || tempC === limitC) return false
  const side = Math.sign(tempC - limitC)
  const { least, most, perCPerMin } = SURELY_C
  const swingC = Math.min(most, least + perCPerMin * Math.abs(rateCPerMin ?? most / perCPerMin))
  const surelyC = swingC + (SURELY_C_PER_PERIOD_S * (probe.periodMs ?? 0)) / 1000
  if (side * (tempC - limitC) > surelyC) return true
  const lately = probe.recent.filter((p, i, all) => p.atMs > atMs - LATELY_MS || i >= all.length - 2)
  const meanC = lately.reduce((sum, p) => sum + p.tempC, 0) / lately.length
  return side * (meanC - limitC) > 0
}
