import type { Cancel, Clock } from '#core/measure/clock'
import { type BackOff, nextWaitMs } from './back-off.ts'

/** How one try went. `dead`: trying again can't help. */
export type Verdict =
  | { readonly kind: 'delivered' }
  | { readonly kind: 'again'; readonly why: string }
  | { readonly kind: 'dead'; readonly why: string }

export interface CourierParts<Letter> {
  readonly clock: Clock
  readonly random01: () => number
  readonly backOff: BackOff
  /** Most letters that may wait at a time; the oldest makes room. */
  readonly mostWaiting: number
  /** `signal` breaks it off when the courier is stopped. */
  attempt(letter: Letter, signal: AbortSignal): Promise<Verdict>
  /** Called once for a letter that has arrived. */
  onDelivered?(letter: Letter): void
  /** Called once for a letter that is given up. */
  onDead(letter: Letter, why: string): void
}

/** A letter that can't even be written (keys off the curve, a full disk) must not take the program down. */
const unsendable = (error: unknown): Verdict => ({
  kind: 'dead',
  why: error instanceof Error ? error.message : String(error),
})

/** Brings letters to a receiver that may be away: tries again with longer and longer waits, then gives up loudly. */
export class Courier<Letter> {
  readonly #parts: CourierParts<Letter>
  /** Letters under way; the call that would try again, once there is one. */
  readonly #waiting = new Map<Letter, Cancel | null>()
  readonly #ender = new AbortController()

  constructor(parts: CourierParts<Letter>) {
    this.#parts = parts
  }

  get waiting(): number {
    return this.#waiting.size
  }

  /** Whether a letter of this kind is on its way or waits for another try. */
  isCarrying(isOne: (letter: Letter) => boolean): boolean {
    return [...this.#waiting.keys()].some(isOne)
  }

  /** Begins to deliver; the promise resolves after the first try. Never rejects. */
  async send(letter: Letter): Promise<void> {
    if (this.#ender.signal.aborted) return
    const [oldest] = this.#waiting.keys()
    if (oldest !== undefined && this.#waiting.size >= this.#parts.mostWaiting)
      this.#giveUp(oldest, 'too many letters were waiting')
    await this.#try(letter, 1)
  }

  async #try(letter: Letter, count: number): Promise<void> {
    this.#waiting.set(letter, null)
    const verdict = await this.#parts.attempt(letter, this.#ender.signal).catch(unsendable)
    if (!this.#waiting.has(letter)) return
    switch (verdict.kind) {
      case 'delivered':
        this.#waiting.delete(letter)
        this.#parts.onDelivered?.(letter)
        return
      case 'dead':
        return this.#giveUp(letter, verdict.why)
      case 'again':
        return this.#putOff(letter, count, verdict.why)
      default:
        return verdict satisfies never
    }
  }

  #putOff(letter: Letter, failed: number, why: string): void {
    const waitMs = nextWaitMs(this.#parts.backOff, failed, this.#parts.random01())
    if (waitMs === null) return this.#giveUp(letter, `${why}, ${failed} times`)
    const cancel = this.#parts.clock.after(waitMs, () => void this.#try(letter, failed + 1))
    this.#waiting.set(letter, cancel)
  }

  #giveUp(letter: Letter, why: string): void {
    this.#waiting.get(letter)?.()
    this.#waiting.delete(letter)
    this.#parts.onDead(letter, why)
  }

  /** No more tries; one under way is broken off. */
  stop(): void {
    for (const cancel of this.#waiting.values()) cancel?.()
    this.#waiting.clear()
    this.#ender.abort()
  }
}
