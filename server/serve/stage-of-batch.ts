import type { Stage } from '#core/plan/plan'
import type { StoveInput } from '#core/watch/stove-input'
import type { StoredBatch } from '../store/batches.ts'
import { Problem } from './http/problem.ts'

/** A stage of the plan that the batch runs on. Refuses an id that it does not have, and names those it has. */
export function stageOf(batch: StoredBatch, stageId: string): Stage {
  const stage = batch.plan.stages.find((s) => s.id === stageId)
  if (stage !== undefined) return stage
  const known = batch.plan.stages.map((s) => s.id).join(', ')
  throw new Problem(404, `the plan of batch ${batch.id} has no stage "${stageId}"; it has ${known}`)
}

/** What the watch is told when a batch comes onto a pot. */
export const putOn = (batch: StoredBatch, potId: string, atMs: number): StoveInput => ({
  kind: 'batch',
  atMs,
  potId,
  batchId: batch.id,
  plan: batch.plan,
  dryWeightG: batch.dryWeightG,
})
