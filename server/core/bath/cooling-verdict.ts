import { type CoolingBin, noiseC } from './cooling-bins.ts'
import {
  type CoolingGuess,
  coolingParameters,
  type CoolingParameters,
  coolingRateCPerS,
} from './cooling-law.ts'
import type { EvaporationTable } from './evaporation-table.ts'

/**
 * `wrong-shape`: no curve of this law fits. `needs-heat`: it rises, or levels out far above the room.
 * Neither says when the bath will be cool.
 */
export type CoolingVerdict = 'good' | 'wrong-shape' | 'needs-heat'

/** Is this a cool-down, and does the law fit it? */
export function judgeCooling(
  bins: readonly CoolingBin[],
  misfitC: number,
  at: readonly number[],
  guess: CoolingGuess,
): CoolingVerdict {
  let lowestC = Number.POSITIVE_INFINITY
  let risenC = 0
  for (const { tempC } of bins) {
    lowestC = Math.min(lowestC, tempC)
    risenC = Math.max(risenC, tempC - lowestC)
  }
  const rangeC = bins[0]!.tempC - lowestC
  const noise = noiseC(bins)
  if (risenC > Math.max(1, 5 * noise)) return 'needs-heat'
  const strays = (place: 0 | 2) => (at[place]! - guess.mean[place]) / guess.spread[place]
  if (strays(2) > 3 || strays(0) < -3) return 'needs-heat'
  if (misfitC > 4 * noise && misfitC > 0.008 * rangeC) return 'wrong-shape'
  return 'good'
}

/** Time constant of the single exponential through the first and the last value of the curve, minutes. */
export function singleTauMin(bins: readonly CoolingBin[], curve: readonly number[], roomC: number): number {
  const spanMin = (bins.at(-1)!.atMs - bins[0]!.atMs) / 60_000
  return spanMin / Math.log((curve[0]! - roomC) / Math.max(0.01, curve.at(-1)! - roomC))
}

/** The loss found over the one expected, half-way down. */
export function lossRatio(
  p: CoolingParameters,
  guess: CoolingGuess,
  table: EvaporationTable,
  bins: readonly CoolingBin[],
): number {
  const middleC = (bins[0]!.tempC + bins.at(-1)!.tempC) / 2
  return (
    coolingRateCPerS(p, middleC) /
    coolingRateCPerS({ ...coolingParameters(guess.mean, table), roomC: p.roomC }, middleC)
  )
}
