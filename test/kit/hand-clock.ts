import type { Cancel, Clock } from '#core/measure/clock'

interface Pending {
  readonly atMs: number
  readonly fn: () => void
}

/** A clock that moves only when a test moves it. Calls that fall due run in time order. */
export class HandClock implements Clock {
  #nowMs: number
  readonly #waiting = new Set<Pending>()

  constructor(startMs = 1_700_000_000_000) {
    this.#nowMs = startMs
  }

  nowMs(): number {
    return this.#nowMs
  }

  after(delayMs: number, fn: () => void): Cancel {
    const pending = { atMs: this.#nowMs + delayMs, fn }
    this.#waiting.add(pending)
    return () => this.#waiting.delete(pending)
  }

  /** How many calls are still to come; a test that ends tidily leaves 0. */
  get pending(): number {
    return this.#waiting.size
  }

  advance(byMs: number): void {
    const endMs = this.#nowMs + byMs
    for (let next = this.#dueBy(endMs); next !== undefined; next = this.#dueBy(endMs)) {
      this.#nowMs = Math.max(this.#nowMs, next.atMs)
      this.#waiting.delete(next)
      next.fn()
    }
    this.#nowMs = endMs
  }

  #dueBy(endMs: number): Pending | undefined {
    return [...this.#waiting].filter((p) => p.atMs <= endMs).sort((a, b) => a.atMs - b.atMs)[0]
  }
}
