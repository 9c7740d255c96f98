import type { AlarmName, Urgency } from '../plan/alarm-names.ts'
import type { AlarmLife } from './alarm-life.ts'
import type { AlarmHappening } from './happening.ts'

/**
 * One time that an alarm stood, from raised to cleared, with its life. `alarmId` rises and is never used
 * twice. `happening` is the newest that was heard of it, so that words can be made again.
 */
export interface AlarmEntry {
  readonly alarmId: number
  readonly alarm: AlarmName
  readonly potId: string
  readonly stageId: string | null
  readonly urgency: Urgency
  readonly sinceMs: number
  readonly raisedMs: number
  readonly clearedMs: number | null
  readonly acknowledgedMs: number | null
  readonly acknowledgedBy: string | null
  /** Raised from readings that came too late to sound; it sounds only if it still stands at the next tick. */
  readonly foundLate: boolean
  readonly life: AlarmLife
  readonly happening: AlarmHappening
}

/** Whether two are the same alarm of the same pot in the same stage. */
export const isSamePoint = (
  a: Pick<AlarmEntry, 'alarm' | 'potId' | 'stageId'>,
  b: Pick<AlarmEntry, 'alarm' | 'potId' | 'stageId'>,
): boolean => a.alarm === b.alarm && a.potId === b.potId && a.stageId === b.stageId

/** A list with its entries of the same `alarmId` replaced. */
export const withEntries = (list: readonly AlarmEntry[], ...changed: readonly AlarmEntry[]) =>
  list.map((entry) => changed.find((c) => c.alarmId === entry.alarmId) ?? entry)

/** An alarm that wants its person again does not count as acknowledged any more. */
export const living = (entry: AlarmEntry, life: AlarmLife): AlarmEntry =>
  life.kind === 'unacknowledged'
    ? { ...entry, life, acknowledgedMs: null, acknowledgedBy: null }
    : { ...entry, life }
