import type { Cancel, Clock } from '#core/measure/clock'

/** Longest wait that Node's timers know, ms; a longer one would fire at once. */
const LONGEST_TIMER_MS = 2 ** 31 - 1

/**
 * The bridge's clock: one wall reading at the start, carried on by the monotonic counter, so that a step of the
 * computer's clock or the change of daylight-saving time never moves or reorders a reading. Whole milliseconds.
 */
export class RealClock implements Clock {
  readonly #anchorMs = Date.now() - performance.now()

  nowMs(): number {
    return Math.round(this.#anchorMs + performance.now())
  }

  /** How far the computer's clock has been set since the start, ms; 0 when it was not. */
  stepMs(): number {
    return Math.round(Date.now() - performance.now() - this.#anchorMs)
  }

  after(delayMs: number, fn: () => void): Cancel {
    const timer = setTimeout(fn, Math.min(Math.max(0, delayMs), LONGEST_TIMER_MS))
    return () => clearTimeout(timer)
  }
}
