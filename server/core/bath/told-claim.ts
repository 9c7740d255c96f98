import type { PotForecast } from './pot-forecast.ts'

/**
 * What a forecast can be held to. `window`, `cool`: when the bath gets there; `leaves`: when it is out of its window;
 * `peak`: how high it coasts within the hour; `drift`: where it stands in half an hour. All of them hold for a pot
 * that nobody touches.
 */
export const CLAIM_KINDS = ['window', 'peak', 'drift', 'leaves', 'cool'] as const
export type ClaimKind = (typeof CLAIM_KINDS)[number]

/** One claim with its 90 % range: Unix ms for `window`, `leaves` and `cool`, °C for `peak` and `drift`. */
export interface ToldClaim {
  readonly kind: ClaimKind
  readonly madeMs: number
  readonly told: number
  readonly low90: number
  readonly high90: number
}

const MIN_MS = 60_000
/** Nearer than this a time is seen, not foretold, ms. */
const LEAST_AHEAD_MS = 10 * MIN_MS
/** A coasting bath has its peak within this, ms. */
export const PEAK_MS = 60 * MIN_MS
/** A bath that rises by less only stands, °C. */
const LEAST_RISE_C = 0.5
/** A way that rises by less than this in its last third has its peak behind it, °C. */
const LEVEL_C = 0.3
export const DRIFT_MS = 30 * MIN_MS
/** Taken for "not within sight", ms. */
const FAR_MS = 24 * 3_600_000

/** What a forecast given at `madeMs` claims; `windowC`: of a stage that has one. */
export function claimsNow(
  forecast: PotForecast,
  madeMs: number,
  windowC: readonly [low: number, high: number] | null,
): readonly ToldClaim[] {
  const claims = [coolClaim(forecast, madeMs)]
  if (windowC !== null && forecast.band90C.length > 1)
    claims.push(
      windowClaim(forecast, madeMs, windowC),
      leavesClaim(forecast, madeMs, windowC),
      driftClaim(forecast, madeMs, windowC),
      peakClaim(forecast, madeMs),
    )
  return claims.filter((claim) => claim !== null)
}

type Band = PotForecast['band90C']

function coolClaim({ reachesCoolToMs, reachesCoolTo90Ms }: PotForecast, madeMs: number): ToldClaim | null {
  if (reachesCoolToMs === null || reachesCoolTo90Ms === null) return null
  const [low90, high90] = reachesCoolTo90Ms
  return timely({ kind: 'cool', madeMs, told: reachesCoolToMs, low90, high90 })
}

/** From below; the way down from over the window is no heat-up. */
function windowClaim(
  { reachesWindowMs, band90C }: PotForecast,
  madeMs: number,
  [lowC]: readonly [number, number],
) {
  if (reachesWindowMs === null || middleAt(band90C, madeMs) >= lowC) return null
  const low90 = firstMs(band90C, ([, , high]) => high - lowC) ?? reachesWindowMs
  const high90 = firstMs(band90C, ([, low]) => low - lowC) ?? madeMs + FAR_MS
  return timely({ kind: 'window', madeMs, told: reachesWindowMs, low90, high90 })
}

function leavesClaim(
  { leavesWindowMs, band90C }: PotForecast,
  madeMs: number,
  [lowC, highC]: readonly [number, number],
) {
  if (leavesWindowMs === null) return null
  const early = firstMs(band90C, ([, low, high]) => Math.max(high - highC, lowC - low))
  const late = firstMs(band90C, ([, low, high]) => Math.max(low - highC, lowC - high))
  const range = { low90: early ?? leavesWindowMs, high90: late ?? madeMs + FAR_MS }
  return timely({ kind: 'leaves', madeMs, told: leavesWindowMs, ...range })
}

function driftClaim({ band90C }: PotForecast, madeMs: number, [lowC, highC]: readonly [number, number]) {
  const nowC = middleAt(band90C, madeMs)
  if (nowC < lowC || nowC > highC) return null
  const atMs = madeMs + DRIFT_MS
  const [low90, high90] = [1, 2].map((side) => at(band90C, atMs, (p) => p[side]!)) as [number, number]
  return { kind: 'drift', madeMs, told: (low90 + high90) / 2, low90, high90 } as const
}

/** Only of a way that has its top within the hour: a bath on its way to the boil has no peak yet. */
function peakClaim({ band90C }: PotForecast, madeMs: number): ToldClaim | null {
  const hour = band90C.filter(([ms]) => ms <= madeMs + PEAK_MS)
  const told = Math.max(...hour.map(middle))
  const lastThird = middleAt(band90C, madeMs + (2 / 3) * PEAK_MS)
  if (told - middleAt(band90C, madeMs) < LEAST_RISE_C) return null
  if (middleAt(band90C, madeMs + PEAK_MS) - lastThird > LEVEL_C) return null
  const low90 = Math.max(...hour.map(([, low]) => low))
  const high90 = Math.max(...hour.map(([, , high]) => high))
  return { kind: 'peak', madeMs, told, low90, high90 }
}

/** A range never excludes what was said. */
function timely(claim: ToldClaim): ToldClaim | null {
  if (claim.told - claim.madeMs < LEAST_AHEAD_MS) return null
  return {
    ...claim,
    low90: Math.round(Math.min(claim.low90, claim.told)),
    high90: Math.round(Math.max(claim.high90, claim.told)),
  }
}

const middle = ([, low, high]: Band[number]): number => (low + high) / 2
const middleAt = (band: Band, atMs: number): number => at(band, atMs, middle)

/** A value of the band at a moment, along a straight line between its points. */
function at(band: Band, atMs: number, of: (point: Band[number]) => number): number {
  const next = band.findIndex(([ms]) => ms >= atMs)
  if (next <= 0) return of(band[next === 0 ? 0 : band.length - 1]!)
  const [a, b] = [band[next - 1]!, band[next]!]
  return of(a) + ((of(b) - of(a)) * (atMs - a[0])) / (b[0] - a[0])
}

/** When `past` first is 0 or more. */
function firstMs(band: Band, past: (point: Band[number]) => number): number | null {
  const found = band.findIndex((point) => past(point) >= 0)
  if (found <= 0) return found === 0 ? band[0]![0] : null
  const [a, b] = [band[found - 1]!, band[found]!]
  return a[0] + ((b[0] - a[0]) * past(a)) / (past(a) - past(b))
}

/** News is what the last claim of its kind in the stage did not cover. */
export const isNews = (claim: ToldClaim, last: ToldClaim): boolean =>
  claim.told < last.low90 || claim.told > last.high90
