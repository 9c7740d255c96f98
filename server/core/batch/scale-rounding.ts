/** A weight as a scale can show it. `errorPercent`: how far the rounding is off, with its sign. */
export interface ScaleWeight {
  readonly shownG: number
  readonly decimals: number
  readonly errorPercent: number
  /** Less than ten of the scale's steps: weigh a stock solution instead (common practice). */
  readonly isTooFine: boolean
}

const FEWEST_STEPS = 10

/**
 * A weight rounded to the nearest step of a scale (0.1, 0.5, 1, 5 g …). Halves go up.
 * Throws RangeError for a step that isn't over 0, or a weight that isn't finite or under 0.
 */
export function roundToScale(weightG: number, stepG: number): ScaleWeight {
  if (!(stepG > 0)) throw new RangeError(`a scale's step must be over 0 g, found ${stepG}`)
  if (!(weightG >= 0) || !Number.isFinite(weightG))
    throw new RangeError(`a weight must be a number from 0 g, found ${weightG}`)
  const decimals = Math.max(0, Math.min(6, Math.ceil(-Math.log10(stepG) - 1e-9) + (isRound(stepG) ? 0 : 1)))
  // Relative, so that 9.75 / 0.05, which floats put just under 195, still counts as 195 steps.
  const steps = Math.floor((weightG / stepG) * (1 + 4 * Number.EPSILON) + 0.5)
  const shownG = Number((steps * stepG).toFixed(decimals))
  return {
    shownG,
    decimals,
    errorPercent: weightG === 0 ? 0 : ((shownG - weightG) / weightG) * 100,
    isTooFine: weightG > 0 && weightG < FEWEST_STEPS * stepG,
  }
}

/** A step that needs no further decimal than its first digit: 0.1, 0.2, 0.5, 1; not 0.25. */
function isRound(stepG: number): boolean {
  const scaled = stepG / 10 ** Math.floor(Math.log10(stepG) + 1e-9)
  return Math.abs(scaled - Math.round(scaled)) < 1e-9
}
