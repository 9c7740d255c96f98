import type { AlarmHappening } from '../watch/happening.ts'
import type { Vessel } from '../bath/vessel.ts'
import type { BathEvent } from '../plan/event.ts'
import type { StageOutcome } from '../plan/outcome.ts'
import type { Plan } from '../plan/plan.ts'
import type { AlarmLifeState } from './live.ts'

/** What the server keeps and answers over HTTP. Times are Unix ms UTC inside the program. */
export interface PotRecord {
  /** A short word made from the title: `heron`. */
  readonly id: string
  readonly title: string
  readonly vessel: Vessel | null
  /** The probe that hangs in it now. */
  readonly probe: string | null
}

/** A plan as one version of it was written; a batch keeps the version that it ran on. */
export interface PlanRecord {
  readonly id: number
  readonly version: number
  readonly savedMs: number
  readonly plan: Plan
}

export interface BatchSummary {
  readonly id: number
  readonly title: string
  readonly planId: number
  readonly planTitle: string
  readonly fibre: string | null
  readonly dryWeightG: number | null
  readonly madeMs: number
  readonly state: 'planned' | 'running' | 'ended'
  readonly potId: string | null
  /** The batch whose bath this lot lies in; its stages, events and alarms are that batch's. `null`: a bath of its own. */
  readonly bathOf: number | null
}

/** One of several lots in one bath. */
export interface BathLot {
  readonly id: number
  readonly title: string
  readonly dryWeightG: number | null
}

export interface BatchRecord extends BatchSummary {
  readonly plan: Plan
  /** All lots of the bath, the one that it is named after first; empty when this is the only one. */
  readonly lots: readonly BathLot[]
  readonly stages: readonly StageRun[]
  readonly events: readonly EventRecord[]
  readonly alarms: readonly AlarmRecord[]
}

/** One stage of a batch as it ran. `probe`: the one whose trace belongs to it. */
export interface StageRun {
  /** A stage that is run again has a new number. */
  readonly id: number
  readonly stageId: string
  readonly potId: string
  readonly probe: string | null
  readonly startedMs: number
  readonly endedMs: number | null
  /** Water in the pot then; `null` or left out where nobody knows it. */
  readonly litres?: number | null
  /** What it came to so far; made again from the record whenever late readings arrive. */
  readonly outcome: StageOutcome | null
}

export interface EventRecord {
  readonly id: number
  readonly atMs: number
  /** When it was written down, if that was later than it happened. */
  readonly notedMs: number
  readonly potId: string | null
  readonly stageId: string | null
  readonly event: BathEvent
  readonly who: string | null
  /** Taken back as a mistake, Unix ms; it stays on record, struck through. */
  readonly struckMs?: number | null
}

export interface AlarmRecord {
  /** The same as `alarmId`: the number to acknowledge it by. */
  readonly id: number
  readonly alarmId: number
  readonly alarm: string
  readonly urgency: string
  readonly state: AlarmLifeState
  readonly potId: string
  readonly batchId: number | null
  readonly stageId: string | null
  readonly sinceMs: number
  readonly raisedMs: number
  readonly clearedMs: number | null
  readonly acknowledgedMs: number | null
  readonly acknowledgedBy: string | null
  /** Found in readings that came too late to call anybody. */
  readonly foundLate: boolean
  readonly tempC: number | null
  readonly limitC: number | null
  readonly peakC: number | null
  /** In the studio's unit and language; a page words the facts again for its own person. */
  readonly text: string
  readonly facts?: AlarmHappening
}

/** A line of a batch's record as it is kept; its kind may be one that this program does not know. */
export interface EntryRecord {
  readonly id: number
  /** When it was so, and when it was written down. */
  readonly atMs: number
  readonly notedMs: number
  readonly who: string | null
  readonly kind: string
  readonly body: unknown
  readonly replaces: number | null
}
