import type { BathEvent } from '../plan/event.ts'
import type { HoldBins } from '../plan/outcome.ts'

/** A stage of the batch as it runs or ran. */
export interface StageProgress {
  readonly stageId: string
  readonly startedMs: number
  readonly endedMs: number | null
  /** Seconds so far, of a hold that has begun. */
  readonly bins: HoldBins | null
}

export interface NotedEvent {
  readonly atMs: number
  readonly event: BathEvent
}

/** What the dyer does now. `start`: the stage is next and nothing runs; `heat`: bring it into the window. */
export type Task =
  | 'start'
  | 'heat'
  | 'goods-in'
  | 'hold'
  | 'hold-done'
  | 'cool'
  | 'soak'
  | 'rest'
  | 'keep-warm'
  | 'finished'
