export interface CsvRow {
  /** The line of the file that the row begins on, counted from 1. */
  readonly line: number
  readonly cells: readonly string[]
}

export type CsvRows =
  | { readonly ok: true; readonly rows: readonly CsvRow[] }
  | { readonly ok: false; readonly why: string }

/**
 * CSV text after RFC 4180 → rows. Both line ends are taken, a byte-order mark and blank lines are left out; a
 * quoted cell may hold commas, line ends and doubled quotes. A quote that is never closed is refused.
 */
export function csvRows(text: string): CsvRows {
  const body = text.startsWith('\uFEFF') ? text.slice(1) : text
  return body.includes('"') ? quotedRows(body) : { ok: true, rows: plainRows(body) }
}

function plainRows(text: string): CsvRow[] {
  const rows: CsvRow[] = []
  let line = 0
  for (const written of text.split('\n')) {
    line += 1
    const bare = written.endsWith('\r') ? written.slice(0, -1) : written
    if (bare !== '') rows.push({ line, cells: bare.split(',') })
  }
  return rows
}

/** A cell, quoted or bare, and what ends it. */
const CELL = /(?:"((?:[^"]|"")*)"|([^",\r\n]*))(,|\r?\n|$)/gy

function quotedRows(text: string): CsvRows {
  const rows: CsvRow[] = []
  let cells: string[] = []
  let line = 1
  let startLine = 1
  CELL.lastIndex = 0
  while (CELL.lastIndex < text.length || cells.length > 0) {
    const match = CELL.exec(text)
    if (match === null)
      return { ok: false, why: `line ${line}: a quote is not closed or stands inside a cell` }
    const [whole, quoted, bare, end] = match
    cells.push(quoted === undefined ? bare! : quoted.replaceAll('""', '"'))
    line += whole.split('\n').length - 1
    if (end === ',') continue
    if (cells.length > 1 || cells[0] !== '') rows.push({ line: startLine, cells })
    cells = []
    startLine = line
  }
  return { ok: true, rows }
}
