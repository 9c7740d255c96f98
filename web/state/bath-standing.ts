import type { Stage } from '#core/plan/plan'

/** Where a bath stands against its stage, as a word that a shape and a colour go with. */
export type Standing =
  | 'in-window'
  | 'below'
  | 'above'
  | 'over-ceiling'
  | 'cooling'
  | 'cool-enough'
  | 'no-window'

/** Bounds count as in. `tempC`: °C. */
export function standingOf(stage: Stage | null, tempC: number): Standing {
  if (stage === null) return 'no-window'
  switch (stage.kind) {
    case 'hold':
    case 'keep-warm':
      return inBand(tempC, stage.windowC, stage.ceilingC)
    case 'cool':
      return tempC <= stage.coolToC ? 'cool-enough' : 'cooling'
    case 'soak':
      return stage.ceilingC !== undefined && tempC > stage.ceilingC ? 'over-ceiling' : 'no-window'
    case 'rest':
      return 'no-window'
    default:
      return stage satisfies never
  }
}

function inBand(
  tempC: number,
  [low, high]: readonly [number, number],
  ceilingC: number | undefined,
): Standing {
  if (ceilingC !== undefined && tempC > ceilingC) return 'over-ceiling'
  if (tempC > high) return 'above'
  return tempC < low ? 'below' : 'in-window'
}

/** The window of a stage, °C, where it has one. */
export const windowOf = (stage: Stage | null): readonly [number, number] | null =>
  stage !== null && (stage.kind === 'hold' || stage.kind === 'keep-warm') ? stage.windowC : null

/** The ceiling of a stage, °C, where it has one. */
export const ceilingOf = (stage: Stage | null): number | null =>
  stage !== null && 'ceilingC' in stage ? (stage.ceilingC ?? null) : null
