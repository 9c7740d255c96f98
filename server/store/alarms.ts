import type { AlarmName, Urgency } from '#core/plan/alarm-names'
import type { AlarmRecord } from '#core/wire/records'

export interface NewAlarm {
  readonly alarm: AlarmName
  readonly urgency: Urgency
  readonly potId: string
  readonly batchId: number | null
  readonly stageId: string | null
  readonly sinceMs: number
  readonly raisedMs: number
  readonly tempC: number | null
  readonly limitC: number | null
  readonly text: string
  /** Found in readings that came too late to call anybody. */
  readonly foundLate: boolean
}

export interface StoredAlarm extends AlarmRecord {
  readonly alarm: AlarmName
  readonly urgency: Urgency
  readonly tempC: number | null
  readonly foundLate: boolean
  readonly shelvedUntilMs: number | null
}

/** What may change of an alarm once it is raised; what is left out stays. */
export interface AlarmChange {
  readonly clearedMs?: number
  readonly peakC?: number | null
  readonly acknowledgedMs?: number
  readonly acknowledgedBy?: string | null
  /** `null`: no longer shelved. */
  readonly shelvedUntilMs?: number | null
  readonly urgency?: Urgency
  readonly text?: string
}

export interface AlarmQuery {
  readonly limit: number
  readonly beforeId?: number
  readonly potId?: string
  readonly batchId?: number
}

export interface AlarmStore {
  raise(alarm: NewAlarm): Promise<StoredAlarm>
  /** `null`: there is no such alarm. */
  change(alarmId: number, change: AlarmChange): Promise<StoredAlarm | null>
  get(alarmId: number): Promise<StoredAlarm | null>
  /** Those that have not cleared, or that nobody has answered: what a person must still look at. */
  open(): Promise<readonly StoredAlarm[]>
  /** Newest first. */
  list(query: AlarmQuery): Promise<readonly StoredAlarm[]>
  /** Those raised, or begun, from `sinceMs` on. */
  since(sinceMs: number): Promise<readonly StoredAlarm[]>
}
