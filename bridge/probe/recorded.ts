import { readFile } from 'node:fs/promises'
import Papa from 'papaparse'
import type { Cancel } from '#core/measure/clock'
import { readNumber } from '#core/measure/read-number'
import { sampleOf } from '#core/measure/sample-of'
import { celsius } from '#core/measure/units'
import type { SettingsOf } from '#core/wire/probe-settings'
import type { OpenSource } from './source.ts'

/** One row with a temperature: seconds after the first row, and °C as the file has it. */
export interface RecordedRow {
  readonly afterS: number
  readonly rawC: number
}

/** A recorded trace played as if it were measured now: the distances between its rows, stamped at their arrival. */
export const openRecorded: OpenSource<SettingsOf<'recorded'>> = (settings, sink, world) => {
  let isClosed = false
  let cancel: Cancel | null = null

  const play = (rows: readonly RecordedRow[], index: number, startMs: number): void => {
    const row = rows[index]
    if (row === undefined) {
      if (settings.repeat) play(rows, 0, world.clock.nowMs() + 1000)
      else sink.way('trouble', `${settings.file} has come to its end`)
      return
    }
    const dueMs = startMs + (row.afterS * 1000) / settings.speed
    cancel = world.clock.after(Math.max(0, dueMs - world.clock.nowMs()), () => {
      sink.sample(sampleOf(settings.name, world.clock.nowMs(), row.rawC))
      play(rows, index + 1, startMs)
    })
  }

  const start = async (): Promise<void> => {
    const rows = await readRows(settings.file)
    if (isClosed) return
    if (typeof rows === 'string') return sink.way('trouble', rows)
    sink.way('open', `${settings.file} is played`)
    play(rows, 0, world.clock.nowMs())
  }

  const started = start()
  return {
    close: async () => {
      isClosed = true
      cancel?.()
      await started
    },
  }
}

async function readRows(file: string): Promise<readonly RecordedRow[] | string> {
  try {
    return recordedRows(await readFile(file, 'utf8'), file)
  } catch (error) {
    return `${file} can't be read: ${error instanceof Error ? error.message.slice(0, 120) : String(error)}`
  }
}

/** Rows of a trace file (CSV) that have a temperature, in order of time; or what is wrong in one sentence. */
export function recordedRows(text: string, file: string): readonly RecordedRow[] | string {
  const { data } = Papa.parse<Record<string, string>>(text, { header: true, skipEmptyLines: true })
  const unit =
    data[0] === undefined ? undefined : ['temp_c', 'temp_f'].find((name) => Object.hasOwn(data[0]!, name))
  if (unit === undefined) return `${file} has no column temp_c or temp_f with rows below it`
  const rows = data
    .map((row) => ({ atMs: Date.parse(row['time'] ?? ''), value: readNumber(row[unit] ?? '') }))
    .filter((row): row is { atMs: number; value: number } => Number.isFinite(row.atMs) && row.value !== null)
    .sort((a, b) => a.atMs - b.atMs)
  const first = rows[0]
  if (first === undefined) return `${file} has no row with a time and a temperature`
  return rows.map(({ atMs, value }) => ({
    afterS: (atMs - first.atMs) / 1000,
    rawC: unit === 'temp_f' ? celsius(value) : value,
  }))
}
