import { uptime } from 'node:os'
import type { Cancel, Clock } from '#core/measure/clock'

/** Longest wait that Node's timers know, ms; a longer one would fire at once. */
const LONGEST_TIMER_MS = 2 ** 31 - 1

/** What the computer offers to tell the time by, ms. */
export interface TimeSources {
  /** The wall clock; a person or a time service may set it. */
  readonly wallMs: () => number
  /** Runs evenly, but stands still while the computer sleeps. */
  readonly evenMs: () => number
  /** Since the computer was started, sleep included; coarse. */
  readonly upMs: () => number
}

const COMPUTER: TimeSources = {
  wallMs: () => Date.now(),
  evenMs: () => performance.now(),
  upMs: () => uptime() * 1000,
}

/** A difference between the clocks that grew by less is not looked into, ms. */
const NOTABLE_MS = 500

/**
 * One wall reading at the start, carried on by the even counter, so that a step of the computer's clock or the change
 * of daylight-saving time never moves or reorders a reading. Time that the computer slept is added: the wall clock
 * ran on meanwhile, and so did the bath. Whole milliseconds.
 */
export class RealClock implements Clock {
  readonly #sources: TimeSources
  readonly #asleepAtStartMs: number
  #anchorMs: number
  #sleptMs = 0
  /** The step of the wall clock that was looked into last. */
  #knownStepMs = 0

  constructor(sources: TimeSources = COMPUTER) {
    this.#sources = sources
    this.#anchorMs = sources.wallMs() - sources.evenMs()
    this.#asleepAtStartMs = sources.upMs() - sources.evenMs()
  }

  nowMs(): number {
    const stepMs = this.#sources.wallMs() - this.#sources.evenMs() - this.#anchorMs
    if (Math.abs(stepMs - this.#knownStepMs) > NOTABLE_MS) this.#lookInto()
    return Math.round(this.#anchorMs + this.#sources.evenMs())
  }

  after(delayMs: number, fn: () => void): Cancel {
    const timer = setTimeout(fn, Math.min(Math.max(0, delayMs), LONGEST_TIMER_MS))
    return () => clearTimeout(timer)
  }

  /** The wall clock moved against the even one: by sleep, which counts, or because it was set, which does not. */
  #lookInto(): void {
    const { wallMs, evenMs, upMs } = this.#sources
    const sleptMs = upMs() - evenMs() - this.#asleepAtStartMs
    if (sleptMs - this.#sleptMs > NOTABLE_MS) {
      this.#anchorMs += sleptMs - this.#sleptMs
      this.#sleptMs = sleptMs
    }
    this.#knownStepMs = wallMs() - evenMs() - this.#anchorMs
  }
}
