/** How a probe has behaved lately: its rhythm, its noise, where it is going. */
export interface ProbeManner {
  readonly periodMs: number | null
  readonly noiseC: number | null
  readonly rateCPerMin: number | null
}

export type Recent = readonly (readonly [atMs: number, tempC: number])[]

/** Readings that are looked at: two minutes at one a second. */
export const RECENT = 120

const UNKNOWN: ProbeManner = { periodMs: null, noiseC: null, rateCPerMin: null }

/**
 * From the last believed readings, by time. Period: median gap, ms. Noise: standard deviation from second
 * differences, °C, which a steady course does not touch: for independent errors of deviation s the mean
 * square of a − 2b + c is 6 s². Rate: least-squares slope, °C/min. `null` while too few have come.
 */
export function probeManner(recent: Recent): ProbeManner {
  if (recent.length < 5) return UNKNOWN
  const gaps = recent.slice(1).map(([atMs], i) => atMs - recent[i]![0])
  const bends = recent.slice(2).map(([, c], i) => recent[i]![1] - 2 * recent[i + 1]![1] + c)
  return {
    periodMs: gaps.sort((a, b) => a - b)[Math.floor(gaps.length / 2)]!,
    noiseC: Math.sqrt(mean(bends.map((bend) => bend * bend)) / 6),
    rateCPerMin: slope(recent),
  }
}

const mean = (values: readonly number[]): number => values.reduce((sum, v) => sum + v, 0) / values.length

function slope(recent: Recent): number | null {
  const midMs = mean(recent.map(([atMs]) => atMs))
  const midC = mean(recent.map(([, tempC]) => tempC))
  const spread = recent.reduce((sum, [atMs]) => sum + ((atMs - midMs) / 60_000) ** 2, 0)
  if (spread === 0) return null
  return recent.reduce((sum, [atMs, tempC]) => sum + ((atMs - midMs) / 60_000) * (tempC - midC), 0) / spread
}
