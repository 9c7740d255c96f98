import Papa from 'papaparse'
import { type BathEvent, eventWord } from '#core/plan/event'
import type { Trace } from '#core/batch/trace-facts'
import type { BatchSummary } from '#core/wire/records'

/**
 * Text that a spreadsheet would run as a formula, also after blanks, line breaks, or in full-width letters. The
 * library puts an apostrophe before it; numbers stay numbers.
 */
const FORMULA = /^\s*[=+\-@|＝＋－＠]|^[\t\r\n]/

type Cell = string | number | null

/** Rows → CSV by RFC 4180: CRLF, quotes where needed, UTF-8. */
const csv = (fields: readonly string[], rows: readonly (readonly Cell[])[]): string =>
  `${Papa.unparse({ fields: [...fields], data: rows.map((row) => [...row]) }, { escapeFormulae: FORMULA, newline: '\r\n' })}\r\n`

/** An event of a trace file. */
export interface TraceEvent {
  readonly atMs: number
  readonly event: BathEvent
}

/**
 * A trace with its events as a trace file: `time,temp_c,event`, by time, an event before a reading of its time. It
 * can be replayed as it stands. Temperatures as stored, °C.
 */
export function traceCsv(trace: Trace, events: readonly TraceEvent[]): string {
  const rows = [
    ...events.map(({ atMs, event }) => ({ atMs, tempC: '', word: eventWord(event), order: 0 })),
    ...trace.map(([atMs, tempC]) => ({ atMs, tempC, word: '', order: 1 })),
  ].sort((a, b) => a.atMs - b.atMs || a.order - b.order)
  return csv(
    ['time', 'temp_c', 'event'],
    rows.map(({ atMs, tempC, word }) => [new Date(atMs).toISOString(), tempC, word]),
  )
}

/** The list of batches, one a row. */
export function batchesCsv(batches: readonly BatchSummary[]): string {
  const fields = ['id', 'title', 'plan', 'fibre', 'dry_weight_g', 'begun', 'state', 'pot']
  return csv(
    fields,
    batches.map((b) => [
      b.id,
      b.title,
      b.planTitle,
      b.fibre ?? '',
      b.dryWeightG,
      new Date(b.madeMs).toISOString(),
      b.state,
      b.potId ?? '',
    ]),
  )
}
