/** How far a model misses one mean reading, and what may have happened since the one before. */
export interface Miss {
  readonly missC: number
  /**
   * Variance that the bath may have wandered off the model since the miss before, °C²: draughts, mains and layers
   * change slowly, so what they did stays. `null`: the model begins anew here.
   */
  readonly wanderC2: number | null
}

/**
 * Misses that tremble and wander → as many independent ones of unit variance, to be squared and summed. A Kalman
 * filter for a random walk seen through white noise; its innovations are independent (Anderson and Moore 1979).
 * @param trembleC spread of one mean reading by itself, °C, > 0
 */
export function innovations(misses: readonly Miss[], trembleC: number): number[] {
  const white = trembleC ** 2
  let walkedC = 0
  let variance = white
  return misses.map(({ missC, wanderC2 }) => {
    if (wanderC2 === null) {
      walkedC = 0
      variance = white
    } else variance += wanderC2
    const total = variance + white
    const surpriseC = missC - walkedC
    const gain = variance / total
    walkedC += gain * surpriseC
    variance *= 1 - gain
    return surpriseC / Math.sqrt(total)
  })
}

/** Root of the mean square: 1 when the variances were right. */
export const rootMeanSquare = (values: readonly number[]): number =>
  values.length === 0 ? 0 : Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length)
