import { randomBytes } from 'node:crypto'
import { open, readFile, rename, rm } from 'node:fs/promises'

/**
 * A small value that outlives the program: keys, subscriptions, letters that were given up. `load` gives
 * `null` when nothing was kept yet.
 */
export interface Kept<T> {
  load(): Promise<T | null>
  save(value: T): Promise<void>
}

/**
 * Keeps it as JSON in a file of its own that only its owner may read. A new value is written beside the old one
 * and takes its place when it is on disk, so that a power cut leaves one or the other. `read` checks what the
 * file holds and gives `null` for what it can't use; that file is set aside, not written over.
 */
export class KeptFile<T> implements Kept<T> {
  readonly #path: string
  readonly #read: (json: unknown) => T | null
  #writing: Promise<void> = Promise.resolve()

  constructor(path: string, read: (json: unknown) => T | null) {
    this.#path = path
    this.#read = read
  }

  async load(): Promise<T | null> {
    const text = await readFile(this.#path, 'utf8').catch((error: NodeJS.ErrnoException) => {
      if (error.code === 'ENOENT') return null
      throw error
    })
    if (text === null) return null
    const value = this.#read(jsonOf(text))
    if (value === null) await rename(this.#path, `${this.#path}.unreadable`)
    return value
  }

  /** One at a time, in the order asked for. */
  save(value: T): Promise<void> {
    const next = this.#writing.then(() => this.#replace(JSON.stringify(value)))
    this.#writing = next.catch(() => undefined)
    return next
  }

  async #replace(text: string): Promise<void> {
    const beside = `${this.#path}.${randomBytes(4).toString('hex')}.new`
    try {
      const file = await open(beside, 'wx', 0o600)
      try {
        await file.writeFile(text)
        await file.sync()
      } finally {
        await file.close()
      }
      await rename(beside, this.#path)
    } catch (error) {
      await rm(beside, { force: true })
      throw error
    }
  }
}

function jsonOf(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    return undefined
  }
}

/** Keeps it as long as the program runs, for a server without a folder of its own. */
export class KeptMemory<T> implements Kept<T> {
  #value: T | null = null

  load(): Promise<T | null> {
    return Promise.resolve(this.#value)
  }

  save(value: T): Promise<void> {
    this.#value = value
    return Promise.resolve()
  }
}
