/** Takes back a call that was put off; harmless when it has already run. */
export type Cancel = () => void

/**
 * The only source of time that a shell hands to anything. `nowMs()` is Unix milliseconds, UTC, and never
 * runs backwards: the real one reads the wall clock once and counts on from there.
 */
export interface Clock {
  nowMs(): number
  /** Calls `fn` once, `delayMs` milliseconds from now (≥ 0). */
  after(delayMs: number, fn: () => void): Cancel
}
