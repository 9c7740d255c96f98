import { createHash } from 'node:crypto'
import { z } from 'zod'
import type { AlarmHappening } from '#core/watch/happening'
import type { StoveInput } from '#core/watch/stove-input'
import type { Store } from '../../store/store.ts'
import { type Kept, KeptFile } from '../../tell/kept.ts'
import { probesIn } from './record-inputs.ts'

/** The watch as the record alone had made it by a moment. A conclusion: what it was made from is the truth. */
export interface Checkpoint {
  /** Of all that it was made from: when that is not the same any more, it is void. */
  readonly print: string
  /** The stretch of the record in it, Unix ms; the end is not included. */
  readonly fromMs: number
  readonly toMs: number
  /** The last input, whose ticks go on. */
  readonly lastMs: number
  /** What the watch knew. */
  readonly watch: string
  /** The alarms that stood. */
  readonly standing: readonly AlarmHappening[]
}

const checkpoint = z.object({
  print: z.string(),
  fromMs: z.number(),
  toMs: z.number(),
  lastMs: z.number(),
  watch: z.string(),
  standing: z.array(z.custom<AlarmHappening>()),
})

/** In a file of its own beside the record, so that it is in no backup and may be deleted at will. */
export const keptCheckpoint = (path: string): Kept<Checkpoint> =>
  new KeptFile(path, (json) => checkpoint.safeParse(json).data ?? null)

/**
 * Names everything that a fold up to `toMs` depends on: `program` (its build and settings), the notes before that
 * moment, and how many readings of each kind there are. Readings are never changed or taken away, so the same
 * number of them are the same.
 */
export async function printOf(
  store: Store,
  program: string,
  notes: readonly StoveInput[],
  { fromMs, toMs }: { readonly fromMs: number; readonly toMs: number },
): Promise<string> {
  const before = notes.filter((note) => note.atMs < toMs)
  const hash = createHash('sha256').update(JSON.stringify([program, fromMs, toMs, before]))
  for (const probe of probesIn(before))
    hash.update(JSON.stringify([probe, await store.readings.tally({ probe, fromMs, toMs })]))
  return hash.digest('base64url')
}
