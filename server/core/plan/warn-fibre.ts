import { FIBRE_LIMITS, type FibreKind } from './fibre.ts'
import type { PlanWarning } from './plan-warning.ts'
import type { Stage } from './plan.ts'

/** Over this a wool bath counts as hot, °C: lifted from here into a cold rinse it may felt (common practice). */
const HOT_C = 50

/** What the goods would not bear well. `next`: the stage that follows. Of several fibres the tenderest governs. */
export function warnFibre(
  stage: Stage,
  next: Stage | undefined,
  fibres: readonly FibreKind[],
): readonly PlanWarning[] {
  return [
    ...warnHeat(stage, fibres),
    ...fibres.flatMap((fibre) => [
      ...warnRates(stage, fibre),
      ...warnPh(stage, fibre),
      ...warnLifted(stage, next, fibre),
    ]),
  ]
}

/** An extraction has no goods in it: what they bear doesn't bind it. */
const hasGoods = (stage: Stage): boolean => stage.kind !== 'hold' || stage.goods

function warnHeat(stage: Stage, fibres: readonly FibreKind[]): readonly PlanWarning[] {
  const tenderest = [...fibres].sort((a, b) => FIBRE_LIMITS[a].ceilingC - FIBRE_LIMITS[b].ceilingC)[0]
  if (tenderest === undefined || !hasGoods(stage)) return []
  const limitC = FIBRE_LIMITS[tenderest].ceilingC
  const topC = 'windowC' in stage ? stage.windowC[1] : undefined
  if (topC !== undefined && topC > limitC)
    return [{ kind: 'window-over-fibre', stageId: stage.id, topC, limitC, fibre: tenderest }]
  const ceilingC = 'ceilingC' in stage ? stage.ceilingC : undefined
  if (ceilingC === undefined || ceilingC <= limitC) return []
  return [{ kind: 'ceiling-over-fibre', stageId: stage.id, ceilingC, limitC, fibre: tenderest }]
}

function warnRates(stage: Stage, fibre: FibreKind): readonly PlanWarning[] {
  if (!hasGoods(stage)) return []
  const stageId = stage.id
  const limits = FIBRE_LIMITS[fibre]
  const heating = 'maxHeatingCPerMin' in stage ? stage.maxHeatingCPerMin : undefined
  const cooling = 'maxCoolingCPerMin' in stage ? stage.maxCoolingCPerMin : undefined
  const found: PlanWarning[] = []
  if (heating !== undefined && heating > limits.heatingCPerMin)
    found.push({
      kind: 'fast-heating',
      stageId,
      rateCPerMin: heating,
      usualCPerMin: limits.heatingCPerMin,
      fibre,
    })
  if (cooling !== undefined && limits.coolingCPerMin !== null && cooling > limits.coolingCPerMin)
    found.push({
      kind: 'fast-cooling',
      stageId,
      rateCPerMin: cooling,
      usualCPerMin: limits.coolingCPerMin,
      fibre,
    })
  return found
}

function warnPh(stage: Stage, fibre: FibreKind): readonly PlanWarning[] {
  if (stage.phRange === undefined || !hasGoods(stage)) return []
  const usual = FIBRE_LIMITS[fibre].phRange
  const [low, high] = stage.phRange
  if (low >= usual[0] && high <= usual[1]) return []
  return [{ kind: 'ph-unkind', stageId: stage.id, ph: low < usual[0] ? low : high, usual, fibre }]
}

function warnLifted(stage: Stage, next: Stage | undefined, fibre: FibreKind): readonly PlanWarning[] {
  const isHot = stage.kind === 'hold' && stage.goods && stage.windowC[1] > HOT_C
  const coolsFirst = next?.kind === 'cool' || (next?.kind === 'hold' && next.windowC[0] > HOT_C)
  return fibre === 'wool' && isHot && !coolsFirst ? [{ kind: 'lifted-hot', stageId: stage.id, fibre }] : []
}
