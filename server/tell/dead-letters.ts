import { z } from 'zod'
import { type Kept, KeptFile } from './kept.ts'

/** A letter that was given up, to be shown. `body` is the JSON as it would have gone. */
export interface DeadLetter {
  readonly id: string
  readonly madeMs: number
  readonly gaveUpMs: number
  readonly why: string
  readonly body: string
}

const deadLetter = z.object({
  id: z.string(),
  madeMs: z.number(),
  gaveUpMs: z.number(),
  why: z.string(),
  body: z.string(),
})

/** Where they are kept: a file of the data folder. */
export const keptDeadLetters = (path: string): Kept<readonly DeadLetter[]> =>
  new KeptFile(path, (json) => z.array(deadLetter).safeParse(json).data ?? null)
