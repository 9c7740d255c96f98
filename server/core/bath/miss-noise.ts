import { type Miss, type MissNoise, surprises } from './wander.ts'

/** What is tried, as multiples of what was expected. */
const TREMBLES = [0.4, 0.55, 0.75, 1, 1.4, 2, 2.8, 4, 6] as const
const SWAYS = [0.25, 0.35, 0.5, 0.7, 1, 1.4, 2, 2.8, 4, 6] as const

/** Spread of the logarithm of each around what was expected, before a trace is seen (judged). */
const SPREAD = { tremble: 1.5, sway: 0.8 } as const

/**
 * How much the readings tremble and the bath sways, as the misses along a trace look: the most likely pair. A fit
 * has taken up part of the sway, so that what was expected has its say too.
 * @param softened surprise in standard deviations → the same with strays weighed down
 */
export function judgeNoise(
  misses: readonly Miss[],
  expected: MissNoise,
  softened: (z: number) => number,
): MissNoise {
  let best = expected
  let leastCost = Number.POSITIVE_INFINITY
  for (const tremble of TREMBLES)
    for (const more of SWAYS) {
      const noise = { trembleC: expected.trembleC * tremble, sway: expected.sway * more }
      const strange = (Math.log(tremble) / SPREAD.tremble) ** 2 + (Math.log(more) / SPREAD.sway) ** 2
      const cost = costOf(misses, noise, softened) + strange
      if (cost >= leastCost) continue
      leastCost = cost
      best = noise
    }
  return best
}

/** Twice the negative log-likelihood, but for a constant. */
function costOf(misses: readonly Miss[], noise: MissNoise, softened: (z: number) => number): number {
  let cost = 0
  for (const { surpriseC, variance } of surprises(misses, noise))
    cost += softened(surpriseC / Math.sqrt(variance)) ** 2 + Math.log(variance)
  return cost
}
