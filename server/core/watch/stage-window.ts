import type { HoldStage, KeepWarmStage, Stage } from '../plan/plan.ts'

export type WindowStage = HoldStage | KeepWarmStage

/** A stage with a window to be in. */
export const hasWindow = (stage: Stage): stage is WindowStage =>
  stage.kind === 'hold' || stage.kind === 'keep-warm'

/** The ceiling of a stage, °C; `null` where it has none. */
export const ceilingOf = (stage: Stage): number | null =>
  'ceilingC' in stage && stage.ceilingC !== undefined ? stage.ceilingC : null

export const middleC = ({ windowC: [lowC, highC] }: WindowStage): number => (lowC + highC) / 2

/** Part of the window that coasting should lead to: past the middle, short of the top. */
const AIM_01 = 2 / 3

/** Where a bath that comes up into its window should end up, °C. */
export const aimC = ({ windowC: [lowC, highC] }: WindowStage): number => lowC + AIM_01 * (highC - lowC)
