import { type Point, tempAt } from './hold-pieces.ts'

/** Less than this a jug of water or the goods can do; more only with the probe out, °C. */
const FALL_C = 4
/** Goods, a stir and a jug never do this much within a minute, °C. */
const GREAT_FALL_C = 12
/** A probe that answers this rarely is believed at its first reading in air. */
const RARE_MIN = 1 / 3
/** Cold goods pull a 20 L bath down 3–5 °C at a stroke; a probe in air falls 20 °C a minute and more. */
const FASTEST_WATER_C_PER_MIN = 6
/**
 * A fall that slows down faster than by this time constant is a probe settling to a cooler bath, not one cooling in
 * air, seconds: between the slowest probe in water (25 s) and a usual one in air (60 s and more, trade notes' story 3).
 */
const LEVELLING_S = 38
/** Before that the two can't be told apart, minutes. */
const TOLD_APART_MIN = 16 / 60
const NEAR_TOP_C = 0.3

/**
 * Has the probe been taken out of the bath? Tells a fall through air (steady, deep) from goods or water
 * poured in (one step, soon over).
 * @param recent believed readings of the last 45 s, oldest first, at least the last three
 * @param disturbed goods, a stir or water have just been noted: only a great fall counts
 * @returns the time of the last reading in the bath, or `null`
 */
export function fallBegan(recent: readonly Point[], quantumC: number, disturbed: boolean): number | null {
  const now = recent.at(-1)
  if (now === undefined || recent.length < 2) return null
  let topC = now.tempC
  for (const { tempC } of recent) if (tempC > topC) topC = tempC
  if (topC - now.tempC < FALL_C) return null
  const startAt = recent.findLastIndex((p) => p.tempC >= topC - NEAR_TOP_C - quantumC)
  const start = recent[startAt]!
  const elapsedMin = (now.atMs - start.atMs) / 60_000
  const dropC = start.tempC - now.tempC
  const later = recent.length - 1 - startAt
  if (dropC < FASTEST_WATER_C_PER_MIN * elapsedMin) return null
  if (dropC >= GREAT_FALL_C && (later >= 2 || elapsedMin >= RARE_MIN)) return start.atMs
  if (later < 2) return null
  if (disturbed || dropC < FALL_C || elapsedMin < TOLD_APART_MIN) return null
  return isLevelling(recent.slice(startAt)) ? null : start.atMs
}

function isLevelling(fall: readonly Point[]): boolean {
  const start = fall[0]!
  const now = fall.at(-1)!
  const middleMs = (start.atMs + now.atMs) / 2
  const after = fall.findIndex((p) => p.atMs >= middleMs)
  const middleC = tempAt(fall[Math.max(0, after - 1)]!, fall[after]!, middleMs)
  const slower = Math.exp(-(now.atMs - middleMs) / 1000 / LEVELLING_S)
  return middleC - now.tempC < slower * (start.tempC - middleC)
}

/**
 * Could a bath that was at `bathC` be at `tempC` after `afterMs`? Open small pots lose at most about 1 % of
 * what they are above a cool room each minute; the strongest ring gives a small pot 2.5 °C a minute
 * (calculated from common pots).
 */
export function isBathLike(tempC: number, bathC: number, afterMs: number): boolean {
  const afterMin = afterMs / 60_000
  const roomC = Math.min(20, bathC)
  const lowC = roomC + (bathC - roomC) * Math.exp(-0.01 * afterMin) - 3
  return tempC >= lowC && tempC <= bathC + 2.5 * afterMin + 3
}

/**
 * A probe that settles half-way between room and bath or higher hangs in something hot: water was poured in or the
 * bath is another one. In air it would still be falling.
 */
export const isHotLiquor = (tempC: number, bathC: number): boolean =>
  tempC >= (Math.min(20, bathC) + bathC) / 2

/** Has the probe settled: at most 0.3 °C in ten seconds, as a 12 s probe does a minute after going in? */
export function isSettled(recent: readonly Point[], quantumC: number): boolean {
  const now = recent.at(-1)
  if (now === undefined) return false
  const before = recent.findLast((p) => p.atMs <= now.atMs - 10_000)
  if (before === undefined) return false
  const spans = Math.max(1, (now.atMs - before.atMs) / 10_000)
  return Math.abs(now.tempC - before.tempC) <= 0.3 * spans + quantumC
}
