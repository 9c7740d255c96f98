import type { RecordKind, RecordLine } from './record-line.ts'

/** One field that a correction changed. `to` is `null` when the line was taken back or the field left out. */
export interface RecordCorrection {
  readonly lineId: number
  /** `batch`: its own title or dry weight. */
  readonly kind: RecordKind | 'batch'
  readonly field: string
  readonly from: unknown
  readonly to: unknown
  readonly who: string | null
  /** When it was corrected, Unix ms UTC. */
  readonly notedMs: number
}

/** What was corrected in a record, by whom and when, from what to what; in order of the corrections. */
export function correctionsOf(lines: readonly RecordLine[]): readonly RecordCorrection[] {
  const byId = new Map(lines.map((line) => [line.id, line]))
  return [...lines]
    .sort((a, b) => a.id - b.id)
    .flatMap((line) => {
      const before = line.replaces === null ? undefined : byId.get(line.replaces)
      return before === undefined ? [] : changesBetween(before, line)
    })
}

function changesBetween(before: RecordLine, after: RecordLine): readonly RecordCorrection[] {
  const old = fieldsOf(before)
  const now = after.kind === before.kind ? fieldsOf(after) : {}
  const fields = [...new Set([...Object.keys(old), ...Object.keys(now)])]
  return fields
    .filter((field) => JSON.stringify(old[field]) !== JSON.stringify(now[field]))
    .map((field) => ({
      lineId: before.id,
      kind: before.kind,
      field,
      from: old[field] ?? null,
      to: now[field] ?? null,
      who: after.who,
      notedMs: after.notedMs,
    }))
}

/** The body's fields, and when it was so: a correction may also move a line in time. */
const fieldsOf = (line: RecordLine): Readonly<Record<string, unknown>> => ({ ...line.body, atMs: line.atMs })
