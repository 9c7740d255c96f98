/** How long to wait before trying again: doubling from the first to the longest, with jitter. */
export interface Backoff {
  readonly firstMs: number
  readonly longestMs: number
}

/**
 * Wait before attempt `attempt` (0 is the first retry), ms. Half of it is jitter, so that a studio full of
 * probes doesn't knock on a broker's door all at once. `random01`: 0 ≤ x < 1.
 */
export function waitMs({ firstMs, longestMs }: Backoff, attempt: number, random01: number): number {
  const fullMs = Math.min(longestMs, firstMs * 2 ** Math.min(attempt, 30))
  return fullMs / 2 + (fullMs / 2) * random01
}
