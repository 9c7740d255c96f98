import type { AddedAs, NewReading, ReadingStore } from '../../store/readings.ts'

interface Waiting {
  readonly readings: readonly NewReading[]
  resolve(added: readonly AddedAs[]): void
  reject(error: unknown): void
}

/** Readings that may wait for one commit; more than this is refused, so that the memory stays bounded. */
const MOST_WAITING = 200_000

/** Several packs that arrive together share one commit, and so one wait for the disk. */
export class GroupCommit {
  readonly #store: ReadingStore
  #waiting: Waiting[] = []
  #count = 0
  #isScheduled = false

  constructor(store: ReadingStore) {
    this.#store = store
  }

  get isFull(): boolean {
    return this.#count >= MOST_WAITING
  }

  /** Resolves when they are on the disk, with what became of each. */
  add(readings: readonly NewReading[]): Promise<readonly AddedAs[]> {
    return new Promise((resolve, reject) => {
      this.#waiting.push({ readings, resolve, reject })
      this.#count += readings.length
      if (this.#isScheduled) return
      this.#isScheduled = true
      setImmediate(() => void this.#commit())
    })
  }

  async #commit(): Promise<void> {
    const group = this.#waiting
    this.#waiting = []
    this.#count = 0
    this.#isScheduled = false
    try {
      const [only] = group
      if (group.length === 1 && only !== undefined) return only.resolve(await this.#store.add(only.readings))
      const added = await this.#store.add(group.flatMap((w) => w.readings))
      let from = 0
      for (const w of group) w.resolve(added.slice(from, (from += w.readings.length)))
    } catch (error) {
      for (const w of group) w.reject(error)
    }
  }
}
