import type { TracePoint } from '../readings.ts'

/** The lowest and the highest value of each slot of time, the first of several equal ones. */
export class SlotExtremes {
  readonly #fromMs: number
  readonly #slotMs: number
  readonly #slots = new Map<number, { low: TracePoint; high: TracePoint }>()

  constructor(fromMs: number, slotMs: number) {
    this.#fromMs = fromMs
    this.#slotMs = slotMs
  }

  add(atMs: number, tempC: number): void {
    const nth = Math.floor((atMs - this.#fromMs) / this.#slotMs)
    const slot = this.#slots.get(nth)
    if (slot === undefined) {
      const point: TracePoint = [atMs, tempC]
      this.#slots.set(nth, { low: point, high: point })
      return
    }
    if (tempC < slot.low[1]) slot.low = [atMs, tempC]
    if (tempC > slot.high[1]) slot.high = [atMs, tempC]
  }

  /** By time; a slot whose lowest and highest are one reading gives it once. */
  points(): readonly TracePoint[] {
    return [...this.#slots.values()].flatMap(({ low, high }) => {
      if (low === high) return [low]
      return low[0] <= high[0] ? [low, high] : [high, low]
    })
  }
}
