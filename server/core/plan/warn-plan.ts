import { fibreKinds } from './fibre.ts'
import type { PlanWarning } from './plan-warning.ts'
import type { Plan, Stage } from './plan.ts'
import { warnFibre } from './warn-fibre.ts'

/** What the plan's place is like. `boilC`: the local boiling point; `airC`: the coolest the room usually is. */
export interface PlanPlace {
  readonly boilC: number
  readonly airC: number
}

/** At the sea, in a room at 20 °C: what is taken when nothing is known. */
export const USUAL_PLACE: PlanPlace = { boilC: 100, airC: 20 }

/**
 * Usual bounds (common practice; `docs/trade-sources.md`), except the two marked. `windowC`: narrower than a
 * probe of ±1 °C can tell (own reckoning). `roomC`: less room to the ceiling than one probe error (own reckoning).
 */
const USUAL = {
  holdMin: [10, 240],
  turnMin: 15,
  liquorRatio: [10, 100],
  percentWof: 300,
  windowC: 2,
  roomC: 1,
} as const

/** What is unusual in a plan that can be run; in the order of its stages. */
export function warnPlan(plan: Plan, place: PlanPlace = USUAL_PLACE): readonly PlanWarning[] {
  const fibres = fibreKinds(plan.fibre)
  return plan.stages.flatMap((stage, i) => [
    ...warnFibre(stage, plan.stages[i + 1], fibres),
    ...warnBoil(stage, place.boilC),
    ...warnWindow(stage),
    ...warnTimes(stage),
    ...warnAmounts(stage),
    ...warnCool(stage, place.airC),
  ])
}

function warnBoil(stage: Stage, boilC: number): readonly PlanWarning[] {
  if (!('windowC' in stage)) return []
  const [bottomC, topC] = stage.windowC
  const stageId = stage.id
  if (bottomC >= boilC) return [{ kind: 'window-over-boil', stageId, bottomC, boilC }]
  if (topC >= boilC) return [{ kind: 'top-over-boil', stageId, topC, boilC }]
  const { ceilingC } = stage
  return ceilingC !== undefined && ceilingC >= boilC
    ? [{ kind: 'ceiling-over-boil', stageId, ceilingC, boilC }]
    : []
}

function warnWindow(stage: Stage): readonly PlanWarning[] {
  if (!('windowC' in stage)) return []
  const [bottomC, topC] = stage.windowC
  const stageId = stage.id
  const widthC = topC - bottomC
  const narrow: PlanWarning[] = widthC < USUAL.windowC ? [{ kind: 'narrow-window', stageId, widthC }] : []
  if (stage.ceilingC === undefined) return [...narrow, { kind: 'no-ceiling', stageId }]
  const roomC = stage.ceilingC - topC
  return roomC < USUAL.roomC ? [...narrow, { kind: 'ceiling-close', stageId, roomC }] : narrow
}

function warnTimes(stage: Stage): readonly PlanWarning[] {
  if (stage.kind !== 'hold') return []
  const { id: stageId, holdMin, outByMin, turnEveryMin } = stage
  const [leastMin, mostMin] = USUAL.holdMin
  const found: PlanWarning[] = []
  if (holdMin < leastMin) found.push({ kind: 'short-hold', stageId, holdMin, usualMin: leastMin })
  if (holdMin > mostMin) found.push({ kind: 'long-hold', stageId, holdMin, usualMin: mostMin })
  if (outByMin !== undefined && outByMin < holdMin)
    found.push({ kind: 'out-before-done', stageId, outByMin, holdMin })
  if (turnEveryMin !== undefined && turnEveryMin > USUAL.turnMin)
    found.push({ kind: 'rare-turning', stageId, turnEveryMin, usualMin: USUAL.turnMin })
  return found
}

function warnAmounts(stage: Stage): readonly PlanWarning[] {
  const stageId = stage.id
  const odd = stage.additives.flatMap((additive): PlanWarning[] =>
    'percentWof' in additive && additive.percentWof > USUAL.percentWof
      ? [
          {
            kind: 'odd-amount',
            stageId,
            additive: additive.name,
            percentWof: additive.percentWof,
            usual: USUAL.percentWof,
          },
        ]
      : [],
  )
  const { liquorRatio } = stage
  const [least, most] = USUAL.liquorRatio
  if (liquorRatio === undefined || (liquorRatio >= least && liquorRatio <= most)) return odd
  return [...odd, { kind: 'odd-ratio', stageId, liquorRatio, usual: USUAL.liquorRatio }]
}

function warnCool(stage: Stage, airC: number): readonly PlanWarning[] {
  if (stage.kind !== 'cool' || stage.coolToC > airC + 2) return []
  return [{ kind: 'cools-long', stageId: stage.id, coolToC: stage.coolToC, airC }]
}
