/** Planned against weighed. `percent` is `null` when nothing was planned. */
export interface WeighedDifference {
  readonly differenceG: number
  readonly percent: number | null
  /** Further off than 5 % (common practice): worth a second look at the scale before it goes in. */
  readonly isOff: boolean
}

/** Over this many per cent off the dyer is asked; exactly on it is still fine. */
const WEIGHED_OFF_PERCENT = 5

/** What the scale showed against what was to be weighed, grams; over is positive. */
export function weighedDifference(plannedG: number, weighedG: number): WeighedDifference {
  const differenceG = weighedG - plannedG
  if (plannedG === 0) return { differenceG, percent: null, isOff: weighedG > 0 }
  const percent = (differenceG / plannedG) * 100
  // Binary floats make 5 % of 10.5 g a hair more than 5 %.
  return { differenceG, percent, isOff: Math.abs(percent) > WEIGHED_OFF_PERCENT + 1e-9 }
}
