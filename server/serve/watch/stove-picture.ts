import { stageStates } from '#core/batch/stage-states'
import type { PotLive, PotNumbers } from '#core/wire/live'
import { type PotOnStove, runningStage } from './pots-on-stove.ts'

/** A pot with everything a page shows of it. */
export function potLive({ pot, batch }: PotOnStove, numbers: PotNumbers): PotLive {
  const stages = batch?.plan.stages ?? []
  const states = stageStates(
    stages.map(({ id }) => id),
    batch?.stages ?? [],
  )
  const run = batch === null ? null : runningStage(batch, pot.id)
  return {
    ...numbers,
    title: pot.title,
    litres: pot.vessel?.litres ?? null,
    dialMax: pot.vessel?.burner.dialMax ?? null,
    batch: batch === null ? null : { id: batch.id, title: batch.title },
    stage: stages.find((stage) => stage.id === run?.stageId) ?? null,
    stages: stages.map(({ id, title }, i) => ({ id, title, state: states[i]! })),
  }
}
