import { readFileSync, statSync } from 'node:fs'
import { z } from 'zod'

const knobs = z.object({
  dial: z.number().min(0).exactOptional(),
  lid: z.enum(['on', 'off']).exactOptional(),
})
type Knobs = z.infer<typeof knobs>

/** A file in which somebody says how the dial and the lid of a simulated pot stand. */
export class KnobsFile {
  readonly #path: string
  #seenMs = 0

  constructor(path: string) {
    this.#path = path
  }

  /** How they stand, when the file has changed since the last look; `null` when not, or when it can't be read yet. */
  turned(): Knobs | null {
    try {
      const { mtimeMs } = statSync(this.#path)
      if (mtimeMs === this.#seenMs) return null
      const said = knobs.parse(JSON.parse(readFileSync(this.#path, 'utf8')))
      this.#seenMs = mtimeMs
      return said
    } catch {
      return null
    }
  }
}
