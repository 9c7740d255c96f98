import type { AlarmHappening } from './happening.ts'

/** An alarm from its raising to its end; `clearedMs` null: it stands still. */
export interface AlarmSpan {
  readonly alarm: AlarmHappening['alarm']
  readonly potId: string
  readonly stageId: string | null
  readonly sinceMs: number
  readonly raisedMs: number
  readonly clearedMs: number | null
  readonly peakC: number | null
}

/** The spans after one more happening, in the order in which they were raised. */
export function noteSpan(spans: readonly AlarmSpan[], h: AlarmHappening): readonly AlarmSpan[] {
  const { alarm, potId, stageId, sinceMs, peakC } = h
  if (h.change === 'raised')
    return [...spans, { alarm, potId, stageId, sinceMs, raisedMs: h.atMs, clearedMs: null, peakC }]
  const index = spans.findLastIndex((s) => s.alarm === alarm && s.potId === potId && s.clearedMs === null)
  const open = spans[index]
  if (open === undefined) return spans
  return spans.with(index, { ...open, peakC, clearedMs: h.change === 'cleared' ? h.atMs : null })
}
