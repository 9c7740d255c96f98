import type { Plan } from '#core/plan/plan'
import type { PlanRecord } from '#core/wire/records'

export interface PlanStore {
  /** The newest version of each, last saved first. */
  list(): Promise<readonly PlanRecord[]>
  /** Without `version` the newest one. */
  get(id: number, version?: number): Promise<PlanRecord | null>
  /** All versions of one plan, oldest first. */
  versions(id: number): Promise<readonly PlanRecord[]>
  add(plan: Plan, savedMs: number): Promise<PlanRecord>
  /** Earlier versions stay: batches ran on them. `null`: there is no such plan. */
  addVersion(id: number, plan: Plan, savedMs: number): Promise<PlanRecord | null>
}
