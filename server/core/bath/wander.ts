/** How far a model misses one mean reading, and what may have happened since the one before. */
export interface Miss {
  readonly missC: number
  /**
   * Variance that the bath may have wandered off the model since the miss before, °C²: draughts, mains and layers
   * change slowly, so what they did stays. `null`: the model begins anew here.
   */
  readonly wanderC2: number | null
}

/** What misses are made of. */
export interface MissNoise {
  /** Spread of one mean reading by itself, °C, > 0. */
  readonly trembleC: number
  /** The wandering over the one that the misses tell. */
  readonly wander: number
}

/** How far a miss lies from what those before it let expect, °C, and the variance of that, °C². */
export interface Surprise {
  readonly surpriseC: number
  readonly variance: number
}

/**
 * Misses that tremble and wander → as many independent surprises. A Kalman filter for a random walk seen through
 * white noise; its innovations are independent (Anderson and Moore 1979).
 */
export function surprises(misses: readonly Miss[], { trembleC, wander }: MissNoise): Surprise[] {
  const white = trembleC ** 2
  let walkedC = 0
  let variance = white
  return misses.map(({ missC, wanderC2 }) => {
    if (wanderC2 === null) {
      walkedC = 0
      variance = white
    } else variance += wander ** 2 * wanderC2
    const total = variance + white
    const surpriseC = missC - walkedC
    const gain = variance / total
    walkedC += gain * surpriseC
    variance *= 1 - gain
    return { surpriseC, variance: total }
  })
}

/** Surprises of unit variance, to be squared and summed. */
export const innovations = (misses: readonly Miss[], noise: MissNoise): number[] =>
  surprises(misses, noise).map(({ surpriseC, variance }) => surpriseC / Math.sqrt(variance))

/** Root of the mean square: 1 when the variances were right. */
export const rootMeanSquare = (values: readonly number[]): number =>
  values.length === 0 ? 0 : Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length)
