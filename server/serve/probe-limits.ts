import { type Correction, correctedC } from '#core/measure/correction'
import type { Stage } from '#core/plan/plan'
import type { ProbeLimit } from '#core/wire/bridge-link'
import { type PotOnStove, runningStage } from './watch/pots-on-stove.ts'

/** The ceilings of the stages that run now, as each pot's own probe would read them; for bridges that are alone. */
export const probeLimits = (
  stove: readonly PotOnStove[],
  correctionsOf: (probe: string) => readonly Correction[],
  nowMs: number,
): readonly ProbeLimit[] =>
  stove.flatMap(({ pot, batch }) => {
    const run = batch === null ? null : runningStage(batch, pot.id)
    const ceilingC = ceilingOf(batch?.plan.stages.find((stage) => stage.id === run?.stageId))
    const probe = run?.probe ?? pot.probe
    if (ceilingC === null || probe === null) return []
    const rawC = rawOf(correctionsOf(probe), ceilingC, nowMs)
    return [{ probe, pot: pot.id, title: pot.title, rawC }]
  })

const ceilingOf = (stage: Stage | undefined): number | null =>
  stage !== undefined && 'ceilingC' in stage && stage.ceilingC !== undefined ? stage.ceilingC : null

/** Corrections are small against what they correct, so three steps come nearer than any probe can tell. */
function rawOf(corrections: readonly Correction[], trueC: number, atMs: number): number {
  let rawC = trueC
  for (let i = 0; i < 3; i++) rawC -= correctedC(corrections, rawC, atMs) - trueC
  return rawC
}
