import type { AlarmEntry } from '#core/watch/alarm-entry'
import type { NoticeHappening } from '#core/watch/happening'
import type { AlarmChange, AlarmMessage, NoticeMessage } from '#core/wire/live'

/** What belongs to an alarm besides its life. */
export interface AlarmContext {
  readonly batchId: number | null
  readonly text: string
}

const iso = (atMs: number): string => new Date(atMs).toISOString()
const isoOrNull = (atMs: number | null): string | null => (atMs === null ? null : iso(atMs))

/** An alarm as it goes out to pages, lamps and phones. */
export const alarmMessage = (
  entry: AlarmEntry,
  { batchId, text }: AlarmContext,
  change: AlarmChange,
  id: number,
): AlarmMessage => ({
  id,
  alarmId: entry.alarmId,
  alarm: entry.alarm,
  urgency: entry.urgency,
  change,
  state: entry.life.kind,
  pot: entry.potId,
  batch: batchId,
  stage: entry.stageId,
  tempC: entry.happening.tempC,
  limitC: entry.happening.limitC,
  sinceAt: iso(entry.sinceMs),
  raisedAt: iso(entry.raisedMs),
  clearedAt: isoOrNull(entry.clearedMs),
  acknowledgedAt: isoOrNull(entry.acknowledgedMs),
  acknowledgedBy: entry.acknowledgedBy,
  text,
  facts: entry.happening,
})

export const noticeMessage = (
  h: NoticeHappening,
  batchId: number | null,
  text: string,
  id: number,
): NoticeMessage => ({
  id,
  notice: h.notice,
  pot: h.potId,
  batch: batchId,
  stage: h.stageId,
  at: iso(h.atMs),
  tempC: h.tempC,
  text,
  facts: h,
})
