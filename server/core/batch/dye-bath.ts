import type { HoldStage, Plan } from '../plan/plan.ts'
import { isDyeStage } from './additive-roles.ts'

/** The run of a batch that coloured the goods, and its stage. */
export interface DyeBath<Run> {
  readonly run: Run
  readonly stage: HoldStage
}

/**
 * The last hold with goods that has a dye in it, else the last hold with goods; `null` when none has run. `runs`: in
 * order of time.
 */
export function dyeBathOf<Run extends { readonly stageId: string }>(
  plan: Plan,
  runs: readonly Run[],
): DyeBath<Run> | null {
  const baths = runs.flatMap((run) => {
    const stage = plan.stages.find((s) => s.id === run.stageId)
    return stage?.kind === 'hold' && stage.goods ? [{ run, stage }] : []
  })
  return baths.findLast(({ stage }) => isDyeStage(stage)) ?? baths.at(-1) ?? null
}
