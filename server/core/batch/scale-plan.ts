import type { Additive, Plan, Stage } from '../plan/plan.ts'
import { type StageNeeds, stageNeeds } from './weighing.ts'

/** What was really weighed in a batch, grams. */
export interface WeighedAmount {
  readonly stageId: string
  readonly additive: string
  readonly weighedG: number
}

/** A batch made into a plan again, with what it needs for another weight of goods. */
export interface RepeatedShade {
  readonly plan: Plan
  readonly needs: readonly StageNeeds[]
}

/**
 * Repeats a shade. Per cents of the dry weight stay, so grams and litres follow the new weight. Where an amount
 * was weighed, the weighed one is taken (as a per cent of the old goods): the colour came from what went in.
 * Both weights in grams, over 0.
 */
export function repeatShade(
  batch: {
    readonly plan: Plan
    readonly dryWeightG: number
    readonly weighed: readonly WeighedAmount[]
  },
  newDryWeightG: number,
): RepeatedShade {
  if (!(batch.dryWeightG > 0)) throw new RangeError(`dry weight must be over 0 g, found ${batch.dryWeightG}`)
  const stages = batch.plan.stages.map((stage) => asWeighed(stage, batch.dryWeightG, batch.weighed))
  const plan = { ...batch.plan, stages }
  return { plan, needs: stages.map((stage) => stageNeeds(stage, newDryWeightG, null)) }
}

function asWeighed(stage: Stage, dryWeightG: number, weighed: readonly WeighedAmount[]): Stage {
  const additives = stage.additives.map((additive): Additive => {
    const found = weighed.find((w) => w.stageId === stage.id && w.additive === additive.name)
    if (found === undefined || !('percentWof' in additive)) return additive
    return { ...additive, percentWof: rounded((found.weighedG / dryWeightG) * 100) }
  })
  return { ...stage, additives }
}

/** To a hundredth of a per cent: finer than any scale in a studio shows. */
const rounded = (percent: number): number => Math.round(percent * 100) / 100
