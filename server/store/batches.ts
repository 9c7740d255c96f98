import type { Plan } from '#core/plan/plan'
import type { StageOutcome } from '#core/plan/outcome'
import type { BathLot, BatchSummary, StageRun } from '#core/wire/records'

export interface NewBatch {
  readonly title: string
  readonly planId: number
  readonly planVersion: number
  readonly dryWeightG: number | null
  readonly madeMs: number
  /** A lot that lies in the bath of another batch. */
  readonly bathOf?: number
}

/** A batch with its stages, which for a lot are those of its bath; events and alarms are asked for apart, by `bathId`. */
export interface StoredBatch extends BatchSummary {
  readonly planVersion: number
  readonly plan: Plan
  readonly lots: readonly BathLot[]
  readonly stages: readonly StageRun[]
}

/** Whose stages, events and alarms a batch has: its own, or those of the bath that it lies in. */
export const bathId = (batch: Pick<BatchSummary, 'id' | 'bathOf'>): number => batch.bathOf ?? batch.id

export interface NewStageRun {
  readonly batchId: number
  readonly stageId: string
  readonly potId: string
  readonly probe: string | null
  readonly startedMs: number
}

/** A stage of some batch, as it ran. */
export interface RunOfBatch extends StageRun {
  readonly batchId: number
}

/** A page of the list, newest first: at most `limit`, with ids under `beforeId`. */
export interface BatchQuery {
  readonly limit: number
  readonly beforeId?: number
  readonly state?: BatchSummary['state']
}

export interface BatchStore {
  add(batch: NewBatch): Promise<StoredBatch>
  list(query: BatchQuery): Promise<readonly BatchSummary[]>
  get(id: number): Promise<StoredBatch | null>
  /** Ends the stage that the batch or the pot is in, then begins this one. */
  startStage(run: NewStageRun): Promise<StageRun>
  /** Ends the running stage and the batch. */
  end(id: number, endedMs: number): Promise<void>
  change(id: number, to: { readonly title: string; readonly dryWeightG: number | null }): Promise<void>
  setOutcome(runId: number, outcome: StageOutcome): Promise<void>
  /** Stages without an end. */
  running(): Promise<readonly RunOfBatch[]>
  /** Stages that had this probe at some time of the stretch (ends included). */
  runsOn(probe: string, fromMs: number, toMs: number): Promise<readonly RunOfBatch[]>
}
