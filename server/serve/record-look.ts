import type { Logger } from 'pino'
import type { Store } from '../store/store.ts'
import type { Health } from './health.ts'

/** Looks through the whole record once after the start, beside everything else. */
export class RecordLook {
  readonly #ender = new AbortController()
  #found: Health['integrity'] = 'checking'
  #looking: Promise<void> = Promise.resolve()

  get found(): Health['integrity'] {
    return this.#found
  }

  begin(store: Store, log: Logger, onFailure: (error: unknown) => void): void {
    this.#looking = this.#look(store, log).catch((error: unknown) => {
      if (!this.#ender.signal.aborted) onFailure(error)
    })
  }

  /** Breaks the look off: of a large record it takes minutes. The file is not looked at any more then. */
  end(): Promise<void> {
    this.#ender.abort()
    return this.#looking
  }

  async #look(store: Store, log: Logger): Promise<void> {
    const wrong = await store.check(this.#ender.signal)
    this.#found = wrong.length === 0 ? 'sound' : 'damaged'
    if (wrong.length > 0) log.error({ wrong }, 'the database is damaged; restore the newest backup')
  }
}
