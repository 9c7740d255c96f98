import type { PotNumbers } from '#core/wire/live'

/**
 * Can the number of a pot be trusted as its bath now? `none`: there has never been a reading. A stale
 * number is shown greyed with its age, so that a silent probe never looks like a good bath. `ageMs` is `null` where
 * readings do come and the watch doesn't take them for the bath's: the probe hangs in the air, or sends a fault.
 */
export type Freshness =
  | { readonly kind: 'fresh'; readonly tempC: number }
  | { readonly kind: 'stale'; readonly lastC: number | null; readonly ageMs: number | null }
  | { readonly kind: 'none' }

/** A reading older than so many of its own periods is stale. */
const PERIODS = 3
/** Until a period has been learned, ms. */
const PERIOD_GUESS_MS = 5_000
/** A probe faster than this is not greyed for one late packet, ms. */
const SHORTEST_MS = 4_000

/** @param nowMs the server's clock, Unix ms. */
export function freshnessOf(pot: PotNumbers, nowMs: number, silent: boolean): Freshness {
  if (pot.lastReadingMs === null) return { kind: 'none' }
  const ageMs = Math.max(0, nowMs - pot.lastReadingMs)
  const limitMs = Math.max(SHORTEST_MS, PERIODS * (pot.periodMs ?? PERIOD_GUESS_MS))
  if (silent || ageMs > limitMs) return { kind: 'stale', lastC: pot.lastReadingC, ageMs }
  if (pot.tempC === null) return { kind: 'stale', lastC: pot.lastReadingC, ageMs: null }
  return { kind: 'fresh', tempC: pot.tempC }
}
