import type { PotLive, PotNumbers } from '#core/wire/live'
import { type PotOnStove, runningStage } from './pots-on-stove.ts'

/** A pot with everything a page shows of it. */
export function potLive({ pot, batch }: PotOnStove, numbers: PotNumbers): PotLive {
  const run = batch === null ? null : runningStage(batch, pot.id)
  return {
    ...numbers,
    title: pot.title,
    litres: pot.vessel?.litres ?? null,
    dialMax: pot.vessel?.burner.dialMax ?? null,
    batch: batch === null ? null : { id: batch.id, title: batch.title },
    stage: batch?.plan.stages.find((stage) => stage.id === run?.stageId) ?? null,
    stages: (batch?.plan.stages ?? []).map(({ id, title }) => {
      const runs = batch!.stages.filter((r) => r.stageId === id)
      const state = runs.some((r) => r.endedMs === null) ? 'running' : runs.length > 0 ? 'done' : 'to-come'
      return { id, title, state }
    }),
  }
}
