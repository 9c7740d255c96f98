import { celsius } from '../measure/units.ts'
import { type BathEvent, parseEvent } from '../plan/event.ts'
import type { Trace } from '../watch/trace-moment.ts'
import { type CsvRow, csvRows } from './csv-rows.ts'
import { type TraceRow, joinRows } from './trace-rows.ts'
import { zonedTime } from './zoned-time.ts'

export type DecodedTrace =
  | { readonly ok: true; readonly trace: Trace }
  | { readonly ok: false; readonly why: string }

interface Columns {
  readonly time: number
  readonly temp: number
  readonly isF: boolean
  readonly event: number | null
}

/**
 * A trace file's text → a trace in time order. What no person could have meant (a word or a stage that isn't
 * known, a time without a zone) refuses the file with the line, what was found and what is allowed; a cell
 * that is no number is one bad reading and is counted.
 * @param stageIds of the plan that the trace belongs to; `null`: it belongs to none, so any stage will do
 */
export function decodeTrace(text: string, stageIds: readonly string[] | null): DecodedTrace {
  const csv = csvRows(text)
  if (!csv.ok) return csv
  const [header, ...body] = csv.rows
  if (header === undefined) return refuse(1, 'the file is empty; the first line must be time,temp_c,event')
  const columns = columnsOf(header)
  if (typeof columns === 'string') return refuse(header.line, columns)
  const rows: TraceRow[] = []
  for (const row of body) {
    const decoded = rowOf(row, columns, stageIds)
    if (typeof decoded === 'string') return refuse(row.line, decoded)
    rows.push(decoded)
  }
  if (rows.length === 0) return refuse(header.line, 'there is no row after the header')
  return { ok: true, trace: joinRows(rows, stageIds ?? []) }
}

const refuse = (line: number, why: string): DecodedTrace => ({ ok: false, why: `line ${line}: ${why}` })

function columnsOf({ cells }: CsvRow): Columns | string {
  const names = cells.map((cell) => cell.trim())
  const at = (name: string) => names.indexOf(name)
  const [time, tempC, tempF, event] = [at('time'), at('temp_c'), at('temp_f'), at('event')]
  const found = `the header is "${cells.join(',')}"`
  if (time < 0) return `${found}; it must have a column time, as in time,temp_c,event`
  if (tempC < 0 && tempF < 0) return `${found}; it must have a column temp_c (or temp_f)`
  const isF = tempC < 0
  return { time, temp: isF ? tempF : tempC, isF, event: event < 0 ? null : event }
}

function rowOf({ cells }: CsvRow, columns: Columns, stageIds: readonly string[] | null): TraceRow | string {
  const written = (cells[columns.time] ?? '').trim()
  const atMs = zonedTime(written)
  if (atMs === null)
    return `the time "${written}" is not allowed; it must be ISO 8601 with Z or an offset, as in 2026-03-12T08:00:00Z`
  const events = columns.event === null ? [] : eventsOf(cells[columns.event] ?? '', stageIds)
  if (typeof events === 'string') return events
  const cell = (cells[columns.temp] ?? '').trim()
  if (cell === '') return { atMs, events, tempC: null, found: null }
  const value = NUMBER.test(cell) ? Number(cell) : Number.NaN
  if (!Number.isFinite(value)) return { atMs, events, tempC: null, found: cell.slice(0, 80) }
  return { atMs, events, tempC: columns.isF ? celsius(value) : value, found: null }
}

/** A decimal point, as RFC 4180 files from devices have it; a comma would be another column. */
const NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/

function eventsOf(cell: string, stageIds: readonly string[] | null): readonly BathEvent[] | string {
  const events: BathEvent[] = []
  for (const word of cell.split(/\s+/).filter((w) => w !== '')) {
    const parsed = parseEvent(word)
    if (!parsed.ok) return parsed.why
    const { event } = parsed
    if (event.kind === 'stage' && stageIds !== null && !stageIds.includes(event.stageId))
      return `the plan has no stage "${event.stageId}"; it has ${stageIds.join(', ')}`
    events.push(event)
  }
  return events
}
