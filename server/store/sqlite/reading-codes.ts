import type { ProbeFault, Reading, Verdict } from '#core/measure/reading'

/** How a verdict or a fault is written in the database. Numbers are never used again for something else. */
const VERDICT_CODES: Readonly<Record<Verdict, number>> = {
  good: 0,
  'start-up': 1,
  jump: 2,
  'second-value': 3,
  future: 4,
}
const FAULT_CODES: Readonly<Record<ProbeFault, number>> = {
  'not-connected': 10,
  'error-code': 11,
  impossible: 12,
}

export const GOOD = VERDICT_CODES.good

const WORDS = new Map<number, string>(
  [...Object.entries(VERDICT_CODES), ...Object.entries(FAULT_CODES)].map(([word, code]) => [code, word]),
)

/** The word of a code, for people. */
export const codeWord = (code: number): string => WORDS.get(code) ?? `code ${code}`

export interface ReadingRow {
  readonly at_ms: number
  readonly raw_c: number | null
  readonly temp_c: number | null
  readonly verdict: number
  readonly found: string | null
  readonly device_ms: number | null
}

export const verdictCode = (verdict: Verdict): number => VERDICT_CODES[verdict]

/** Reading → row; `temp_c` only where the correction changed something. */
export function toRow(r: Reading, deviceMs: number | null): ReadingRow {
  const at_ms = r.atMs
  const device_ms = deviceMs
  if (r.kind === 'fault')
    return { at_ms, raw_c: null, temp_c: null, verdict: FAULT_CODES[r.fault], found: r.found, device_ms }
  const temp_c = r.tempC === r.rawC ? null : r.tempC
  return { at_ms, raw_c: r.rawC, temp_c, verdict: VERDICT_CODES[r.verdict], found: null, device_ms }
}

/** Row → reading. Throws on a code that no version of this program has written. */
export function toReading(probe: string, row: ReadingRow): Reading {
  const word = WORDS.get(row.verdict)
  if (word === undefined) throw new Error(`the database holds an unknown verdict code ${row.verdict}`)
  const atMs = row.at_ms
  if (row.raw_c === null)
    return { kind: 'fault', probe, atMs, fault: word as ProbeFault, found: row.found ?? '' }
  const tempC = row.temp_c ?? row.raw_c
  return { kind: 'temp', probe, atMs, rawC: row.raw_c, tempC, verdict: word as Verdict }
}
