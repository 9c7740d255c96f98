/** Longer and longer waits between tries, Ms. */
export interface BackOff {
  readonly firstMs: number
  readonly mostMs: number
  /** Tries in all, the first one counted. */
  readonly tries: number
}

/** Ten tries over about half an hour: a router's restart or an update of the receiver fits in. */
export const BACK_OFF: BackOff = { firstMs: 2_000, mostMs: 300_000, tries: 10 }

/**
 * The wait after this many failed tries (≥ 1), or `null` when it is enough. Doubles each time; between half
 * and the whole of it is left to chance (`random01`, 0 … 1), so that senders that failed together don't
 * come back together.
 */
export function nextWaitMs(backOff: BackOff, failed: number, random01: number): number | null {
  if (failed >= backOff.tries) return null
  const wholeMs = Math.min(backOff.mostMs, backOff.firstMs * 2 ** (failed - 1))
  return Math.round(wholeMs * (0.5 + 0.5 * random01))
}
