import { readFile } from 'node:fs/promises'
import type { Cancel } from '#core/measure/clock'
import { sampleOf } from '#core/measure/sample-of'
import type { SettingsOf } from '#core/wire/probe-settings'
import { decodeTrace } from '#core/wire/trace-file'
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
  // Any stage will do here: the plan that the trace belongs to is not asked for.
  const stageIds = [...text.matchAll(/stage:([^\s,"]+)/g)].map((m) => m[1]!)
  const decoded = decodeTrace(text, stageIds)
  if (!decoded.ok) return `${file}: ${decoded.why}`
  const rows = decoded.trace.moments.flatMap(({ atMs, tempC }) =>
    tempC === null ? [] : [{ atMs, rawC: tempC }],
  )
  const first = rows[0]
  if (first === undefined) return `${file} has no row with a temperature`
  return rows.map(({ atMs, rawC }) => ({ afterS: (atMs - first.atMs) / 1000, rawC }))
}
