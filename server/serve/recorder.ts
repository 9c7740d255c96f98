import type { Cancel, Clock } from '#core/measure/clock'
import { diskTrouble } from '../store/disk-trouble.ts'
import type { Store } from '../store/store.ts'

/** How long between two looks whether the disk takes writes again, ms. */
const RETRY_MS = 2000

/** Things that may wait for the disk; the oldest give way, loudly, so that the memory stays bounded. */
const MOST_KEPT = 10_000

/**
 * Knows whether writing works. While it doesn't, the watch goes on from memory: what must not be lost is kept
 * here in order and written when the disk takes it again.
 */
export class Recorder {
  readonly #store: Store
  readonly #clock: Clock
  readonly #onChange: (trouble: string | null) => void
  #trouble: string | null = null
  #kept: (() => Promise<unknown>)[] = []
  #writing: Promise<void> = Promise.resolve()
  #cancelRetry: Cancel | null = null
  #isClosed = false

  constructor(store: Store, clock: Clock, onChange: (trouble: string | null) => void) {
    this.#store = store
    this.#clock = clock
    this.#onChange = onChange
  }

  /** What a person should know and do; `null` while everything is written. */
  get trouble(): string | null {
    return this.#trouble
  }

  /** Does a write that the caller waits for. A refusing disk rejects it and is remembered as trouble. */
  async write<T>(work: () => Promise<T>): Promise<T> {
    try {
      return await work()
    } catch (error) {
      this.#note(error)
      throw error
    }
  }

  /** Writes in the order asked for, now or when the disk takes it again. Never rejects for the disk's sake. */
  keep(work: () => Promise<unknown>): Promise<void> {
    this.#kept.push(work)
    if (this.#kept.length > MOST_KEPT) this.#kept.shift()
    this.#writing = this.#writing.then(() => this.#writeKept())
    return this.#writing
  }

  async close(): Promise<void> {
    this.#isClosed = true
    this.#cancelRetry?.()
    await this.#writing
  }

  async #writeKept(): Promise<void> {
    while (this.#kept.length > 0) {
      try {
        await this.#kept[0]!()
      } catch (error) {
        if (this.#note(error)) return
        this.#kept.shift()
        throw error
      }
      this.#kept.shift()
    }
  }

  /** `true` when it was the disk's fault. */
  #note(error: unknown): boolean {
    const trouble = diskTrouble(error)
    if (trouble === null) return false
    this.#set(trouble)
    return true
  }

  #set(trouble: string | null): void {
    if (trouble !== this.#trouble) {
      this.#trouble = trouble
      this.#onChange(trouble)
    }
    this.#cancelRetry?.()
    const wantsRetry = trouble !== null && !this.#isClosed
    this.#cancelRetry = wantsRetry ? this.#clock.after(RETRY_MS, () => void this.#retry()) : null
  }

  async #retry(): Promise<void> {
    try {
      await this.#store.probeWrite()
    } catch (error) {
      if (!this.#note(error)) throw error
      return
    }
    this.#set(null)
    await this.keep(async () => undefined)
  }
}
