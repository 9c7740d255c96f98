import type { BathEvent } from '#core/plan/event'
import type { EventRecord } from '#core/wire/records'

export interface NewEvent {
  readonly atMs: number
  readonly notedMs: number
  readonly potId: string | null
  readonly batchId: number | null
  readonly stageId: string | null
  readonly event: BathEvent
  readonly who: string | null
}

export interface StoredEvent extends EventRecord {
  readonly batchId: number | null
  /** When it was taken back; `null`: it stands. */
  readonly struckMs: number | null
}

export interface EventStore {
  add(event: NewEvent): Promise<StoredEvent>
  /** An undone event stays on record, struck through, and counts no more; `null`: none stands under this number. */
  strike(id: number, atMs: number, who: string | null): Promise<StoredEvent | null>
  /** Of one batch, struck ones too, by time. */
  ofBatch(batchId: number): Promise<readonly StoredEvent[]>
  /** Of one pot from `sinceMs` on, without the struck ones, by time. */
  ofPot(potId: string, sinceMs: number): Promise<readonly StoredEvent[]>
}
