import { standingLines } from '#core/batch/current-record'
import type { LineOf, RecordKind, RecordLine } from '#core/batch/record-line'
import type { BatchRecord, EntryRecord } from '#core/wire/records'
import type { Catalogue } from '../words/catalogue.ts'

export interface BatchWithEntries extends BatchRecord {
  readonly entries: readonly EntryRecord[]
}

const KINDS: Readonly<Record<RecordKind, true>> = {
  goods: true,
  water: true,
  preparation: true,
  weighing: true,
  'dye-bath': true,
  equipment: true,
  ph: true,
  check: true,
  photo: true,
  result: true,
  fastness: true,
  cost: true,
  note: true,
  withdrawn: true,
} satisfies Readonly<Record<Exclude<keyof Catalogue['record']['kinds'], 'batch'>, true>>

/** Lines of known kinds; their bodies were checked when they were taken in. */
export const recordLines = (entries: readonly EntryRecord[]): readonly RecordLine[] =>
  entries.filter((entry): entry is RecordLine & EntryRecord => entry.kind in KINDS)

export const standingOf = <K extends RecordKind>(
  lines: readonly RecordLine[],
  kind: K,
): readonly LineOf<K>[] => standingLines(lines).filter((line): line is LineOf<K> => line.kind === kind)
