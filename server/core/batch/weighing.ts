import type { Additive, Stage } from '../plan/plan.ts'

/** Grams for a per cent of the dry weight (WOF): weight × % / 100. */
export const gramsOfPercent = (dryWeightG: number, percentWof: number): number =>
  (dryWeightG * percentWof) / 100

/** Litres of bath for a liquor ratio: 850 g at 25:1 are 21.25 L. */
export const litresOfRatio = (dryWeightG: number, liquorRatio: number): number =>
  (dryWeightG / 1000) * liquorRatio

/**
 * Millilitres of a stock solution that carry a shade: goods × shade % / stock %. Both in per cent, the stock as
 * grams in 100 mL. For amounts too small for the scale.
 */
export const stockMl = (dryWeightG: number, percentWof: number, stockPercent: number): number =>
  (dryWeightG * percentWof) / stockPercent

/** What to weigh of one additive. `needG` is `null` when the plan gives g/L and no volume is known. */
export interface AdditiveNeed {
  readonly name: string
  readonly additive: Additive
  readonly needG: number | null
}

export interface StageNeeds {
  readonly stageId: string
  /** Litres of bath: by the stage's liquor ratio, else what is in the pot; `null` when neither is known. */
  readonly litres: number | null
  readonly additives: readonly AdditiveNeed[]
}

/**
 * Grams and litres of a stage, exact; rounding belongs to the scale (`roundToScale`).
 * @param dryWeightG grams, > 0; throws RangeError else.   @param potLitres what the pot holds, or `null`
 */
export function stageNeeds(stage: Stage, dryWeightG: number, potLitres: number | null): StageNeeds {
  if (!(dryWeightG > 0)) throw new RangeError(`dry weight must be over 0 g, found ${dryWeightG}`)
  const litres = stage.liquorRatio === undefined ? potLitres : litresOfRatio(dryWeightG, stage.liquorRatio)
  const additives = stage.additives.map((additive) => ({
    name: additive.name,
    additive,
    needG: needOf(additive, dryWeightG, litres),
  }))
  return { stageId: stage.id, litres, additives }
}

function needOf(additive: Additive, dryWeightG: number, litres: number | null): number | null {
  if ('percentWof' in additive) return gramsOfPercent(dryWeightG, additive.percentWof)
  return litres === null ? null : additive.gPerL * litres
}
