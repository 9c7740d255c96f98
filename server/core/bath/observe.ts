import { spreadOf } from './advise.ts'
import type { Course } from './course.ts'
import type { BathNow } from './forecast.ts'
import { AT, type PotBelief } from './pot-belief.ts'
import { lossW, potModel, powerW, tuned, type PotModel } from './pot-model.ts'

/** Spread of a rate over some minutes, °C a minute. */
const RATE_SPREAD = 0.04

/**
 * What the present rate says about the burner, when its element is warm (the dial unchanged for some minutes): the
 * belief for this hour only. Kalman's filter on the rate that the model expects, straightened out anew three times.
 */
export function observeRate(belief: PotBelief, bath: BathNow, course: Course): PotBelief {
  const model = potModel(belief.vessel)
  const expected = (parameters: readonly number[]) => settledRate(model, parameters, bath, course)
  let at = belief
  for (let i = 0; i < 3; i++) at = updated(belief, at.mean, expected, bath.rateCPerMin)
  return at
}

/** One update of `belief` with the expectation taken as a straight line around `around`. */
function updated(
  belief: PotBelief,
  around: readonly number[],
  expected: (parameters: readonly number[]) => number,
  seen: number,
): PotBelief {
  const there = expected(around)
  const slopes = around.map((_, i) => {
    const moved = around.map((value, k) => (k === i ? value + 0.01 : value))
    return (expected(moved) - there) / 0.01
  })
  const crossed = belief.covariance.map((row) => row.reduce((sum, value, j) => sum + value * slopes[j]!, 0))
  const variance = slopes.reduce((sum, slope, i) => sum + slope * crossed[i]!, RATE_SPREAD ** 2)
  const onLine = slopes.reduce((sum, slope, i) => sum + slope * (belief.mean[i]! - around[i]!), there)
  return {
    ...belief,
    mean: belief.mean.map((value, i) => value + (crossed[i]! * (seen - onLine)) / variance),
    covariance: belief.covariance.map((row, i) =>
      row.map((value, j) => value - (crossed[i]! * crossed[j]!) / variance),
    ),
  }
}

/** How far the rate is from what is believed, in standard deviations; above 0: warmer than expected. */
export function rateSurprise(belief: PotBelief, bath: BathNow, course: Course): number {
  const model = potModel(belief.vessel)
  const expected = (parameters: readonly number[]) => settledRate(model, parameters, bath, course)
  return (bath.rateCPerMin - expected(belief.mean)) / Math.hypot(RATE_SPREAD, spreadOf(belief, expected))
}

/** Rate with the element warm, °C a minute. */
function settledRate(model: PotModel, parameters: readonly number[], bath: BathNow, course: Course): number {
  const pot = tuned(model, parameters)
  const heatW = powerW(pot, course.dial) - lossW(pot, course.lid, course.roomC, bath.waterC)
  return (60 * heatW) / (Math.exp(parameters[AT.capacity]!) * (bath.capacityFactor ?? 1))
}
