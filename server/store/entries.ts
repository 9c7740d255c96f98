/**
 * A line of a batch's record: a weighing, a pH, a photo, a result, a correction. Lines are added and never
 * changed; a later line may say which one it `replaces`.
 */
export interface Entry {
  readonly id: number
  readonly batchId: number
  /** When it was so; `notedMs` is when it was written down. */
  readonly atMs: number
  readonly notedMs: number
  readonly who: string | null
  /** What sort of line, a word: `weighing`, `ph`, `note`, `result`, `correction`. */
  readonly kind: string
  /** Plain JSON; its shape belongs to `kind` and is checked by `core/wire`. */
  readonly body: unknown
  readonly replaces: number | null
}

export interface EntryStore {
  add(entry: Omit<Entry, 'id'>): Promise<Entry>
  /** By time; replaced ones too. */
  ofBatch(batchId: number): Promise<readonly Entry[]>
}
