import { GAP_MS } from '#core/measure/reading'
import type { NightGap } from '#core/watch/morning-night'
import type { StageRun } from '#core/wire/records'
import type { ReadingStore } from '../store/readings.ts'

/** Read in pieces, so that the watch is not kept waiting. */
const PIECE_MS = 3_600_000

export interface NightRange {
  readonly fromMs: number
  readonly toMs: number
}

/** Where the traces of these stages have holes. */
export async function nightGaps(
  readings: ReadingStore,
  runs: readonly StageRun[],
  range: NightRange,
): Promise<readonly NightGap[]> {
  const gaps: NightGap[] = []
  for (const { potId, probe, startedMs, endedMs } of runs) {
    if (probe === null) continue
    const fromMs = Math.max(startedMs, range.fromMs)
    const toMs = Math.min(endedMs ?? range.toMs, range.toMs)
    for (const hole of await holesIn(readings, probe, fromMs, toMs)) gaps.push({ potId, ...hole })
  }
  return gaps
}

async function holesIn(readings: ReadingStore, probe: string, fromMs: number, toMs: number) {
  const holes: { readonly fromMs: number; readonly toMs: number }[] = []
  let lastMs = fromMs
  const reach = (atMs: number) => {
    if (atMs - lastMs > GAP_MS) holes.push({ fromMs: lastMs, toMs: atMs })
    lastMs = atMs
  }
  for (let startMs = fromMs; startMs < toMs; startMs += PIECE_MS) {
    const range = { probe, fromMs: startMs, toMs: Math.min(toMs, startMs + PIECE_MS) }
    for (const reading of await readings.between(range))
      if (reading.kind === 'temp' && reading.verdict === 'good') reach(reading.atMs)
  }
  reach(toMs)
  return holes
}
