import type { StageOutcome } from '#core/plan/outcome'
import type { Plan } from '#core/plan/plan'
import type { BatchSummary } from '#core/wire/records'
import type { RunOfBatch } from '../batches.ts'

export interface BatchRow {
  readonly id: number
  readonly title: string
  readonly plan_id: number
  readonly plan_version: number
  readonly plan: string
  readonly dry_weight_g: number | null
  readonly made_ms: number
  readonly state: BatchSummary['state']
  readonly pot_id: string | null
  readonly bath_of: number | null
}
export interface RunRow {
  readonly id: number
  readonly batch_id: number
  readonly stage_id: string
  readonly pot_id: string
  readonly probe: string | null
  readonly started_ms: number
  readonly ended_ms: number | null
  readonly outcome: string | null
  readonly litres: number | null
}

export const SELECT_BATCH = `
  select b.*, v.body as plan from batch b
  join plan_version v on v.plan_id = b.plan_id and v.version = b.plan_version`

export function toSummary(row: BatchRow): BatchSummary {
  const plan = JSON.parse(row.plan) as Plan
  return {
    id: row.id,
    title: row.title,
    planId: row.plan_id,
    planTitle: plan.title,
    fibre: plan.fibre ?? null,
    dryWeightG: row.dry_weight_g,
    madeMs: row.made_ms,
    state: row.state,
    potId: row.pot_id,
    bathOf: row.bath_of,
  }
}

export const toRun = (row: RunRow): RunOfBatch => ({
  id: row.id,
  batchId: row.batch_id,
  stageId: row.stage_id,
  potId: row.pot_id,
  probe: row.probe,
  startedMs: row.started_ms,
  endedMs: row.ended_ms,
  litres: row.litres,
  outcome: row.outcome === null ? null : (JSON.parse(row.outcome) as StageOutcome),
})
