import type { AlarmEntry } from '#core/watch/alarm-entry'
import type { AlarmRecord } from '#core/wire/records'

/** An alarm with its whole life, so that the desk can be set up again, and what it was put into words as. */
export interface StoredAlarm {
  readonly entry: AlarmEntry
  readonly batchId: number | null
  readonly text: string
}

export interface AlarmQuery {
  readonly limit: number
  readonly beforeId?: number
  readonly potId?: string
  readonly batchId?: number
  /** Only those raised from this time on. */
  readonly sinceMs?: number
}

export interface AlarmStore {
  /** Writes it as it stands now, in the place of what was known under its `alarmId`. */
  put(alarm: StoredAlarm): Promise<void>
  get(alarmId: number): Promise<StoredAlarm | null>
  /** What the desk must still know: not over and done with, or raised or cleared from `sinceMs` on. */
  kept(sinceMs: number): Promise<readonly StoredAlarm[]>
  /** Newest first. */
  list(query: AlarmQuery): Promise<readonly StoredAlarm[]>
  /** The highest `alarmId` there is; 0 when there is none. */
  lastId(): Promise<number>
}

/** As it is answered over HTTP. */
export const alarmRecord = ({ entry, batchId, text }: StoredAlarm): AlarmRecord => ({
  id: entry.alarmId,
  alarmId: entry.alarmId,
  alarm: entry.alarm,
  urgency: entry.urgency,
  state: entry.life.kind,
  potId: entry.potId,
  batchId,
  stageId: entry.stageId,
  sinceMs: entry.sinceMs,
  raisedMs: entry.raisedMs,
  clearedMs: entry.clearedMs,
  acknowledgedMs: entry.acknowledgedMs,
  acknowledgedBy: entry.acknowledgedBy,
  foundLate: entry.foundLate,
  tempC: entry.happening.tempC,
  limitC: entry.happening.limitC,
  peakC: entry.happening.peakC,
  text,
  facts: entry.happening,
})
