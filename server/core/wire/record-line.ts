import { z } from 'zod'
import type { RecordBodies, RecordKind, RecordLine } from '../batch/record-line.ts'
import { explainIssue } from './explain-issue.ts'
import { knownFields } from './known-fields.ts'
import { RECORD_BODY_SCHEMAS, RECORD_KINDS } from './record-line-schema.ts'
import type { EntryRecord } from './records.ts'
import { visibleLine } from './visible-line.ts'

/** A line as a person sends it. `atMs` left out: now. `replaces`: the line that it corrects or takes back. */
export type NewRecordLine = {
  readonly [K in RecordKind]: {
    readonly kind: K
    readonly body: RecordBodies[K]
    readonly atMs?: number
    readonly who?: string
    readonly replaces?: number
  }
}[RecordKind]

export type DecodedLine =
  | { readonly ok: true; readonly line: NewRecordLine }
  | { readonly ok: false; readonly why: string }

const FRAME = z.strictObject({
  kind: z.enum(RECORD_KINDS),
  body: z.unknown().optional(),
  atMs: z.number().int().exactOptional(),
  who: visibleLine(100).exactOptional(),
  replaces: z.number().int().positive().exactOptional(),
})

/** JSON → a line of the record, or what is wrong with it. A line that takes back needs to say which. */
export function decodeRecordLine(json: unknown): DecodedLine {
  const frame = FRAME.safeParse(json)
  if (!frame.success) return refused(frame.error, json, FRAME)
  const schema: z.ZodType = RECORD_BODY_SCHEMAS[frame.data.kind]
  const body = schema.safeParse(frame.data.body ?? {})
  if (!body.success) return refused(body.error, frame.data.body ?? {}, schema, frame.data.kind)
  const { kind, replaces } = frame.data
  const fault = emptyFault(kind, body.data as object, replaces)
  if (fault !== null) return { ok: false, why: fault }
  return { ok: true, line: { ...frame.data, body: body.data } as NewRecordLine }
}

function emptyFault(kind: RecordKind, body: object, replaces: number | undefined): string | null {
  if (kind === 'withdrawn')
    return replaces === undefined ? 'to take a line back, say in "replaces" which one' : null
  return Object.keys(body).length === 0 ? `${kind}: there is nothing in it to keep` : null
}

function refused(error: z.ZodError, json: unknown, schema: z.ZodType, kind?: RecordKind): DecodedLine {
  const issue = error.issues[0]!
  const why = explainIssue(issue, json, (path) => knownFields(schema, path))
  return { ok: false, why: kind === undefined ? why : `${kind}: ${why}` }
}

/** A stored line (kind and body as they were written) → a line of the record; `null` for a kind that isn't known. */
export function recordLineOf(stored: EntryRecord): RecordLine | null {
  const kind = RECORD_KINDS.find((known) => known === stored.kind)
  if (kind === undefined) return null
  const schema: z.ZodType = RECORD_BODY_SCHEMAS[kind]
  const body = schema.safeParse(stored.body)
  if (!body.success) return null
  const { id, atMs, notedMs, who, replaces } = stored
  return { id, atMs, notedMs, who, replaces, kind, body: body.data } as RecordLine
}
