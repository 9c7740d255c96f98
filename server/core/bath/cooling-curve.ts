import type { CoolingBin } from './cooling-bins.ts'
import {
  type CoolingGuess,
  coolingParameters,
  type CoolingParameters,
  coolingRateCPerS,
} from './cooling-law.ts'
import type { EvaporationTable } from './evaporation-table.ts'
import { leastSquares } from './least-squares.ts'
import { innovations } from './wander.ts'

/** Place of the curve's begin in the fitted vector. */
export const FROM = 5

/** Spread of one mean reading by itself, °C. */
const TREMBLE_C = 0.04

/**
 * How the loss wanders with draughts and the room: standard deviation after one minute as a share of it, growing
 * with the root of the minutes. What is found counts as much as this many minutes of the guess.
 */
export const WANDER = { guess: 0.3, worthBins: 15, least: 0.5, most: 4 } as const

/** What a cool-down is fitted to. */
export interface CoolingData {
  readonly bins: readonly CoolingBin[]
  readonly guess: CoolingGuess
  readonly evaporation: EvaporationTable
  /** Variance gained since the bin before, °C²; `null` for the first. */
  readonly wander: readonly (number | null)[]
}

export function fitCurve(data: CoolingData, noise: number, start: readonly number[]) {
  return leastSquares({
    residuals: (at) => residuals(data, noise, at),
    start,
    typical: [0.1, 0.1, 1, 0.1, 0.1, 1],
    tolerance: 1e-5,
    enough: 1e-3,
    oneSided: true,
    maxIterations: 40,
  })
}

/** The noise that was found over the one expected, drawn toward 1 while there is little to find it in. */
export function noiseOf(data: CoolingData, at: readonly number[]): number {
  const found = innovationsAt(data, at)
  const square = found.reduce((sum, z) => sum + z * z, WANDER.worthBins) / (found.length + WANDER.worthBins)
  return Math.min(WANDER.most, Math.max(WANDER.least, Math.sqrt(square)))
}

/** From the fall around each bin; its own noise must not make a steep bin look loose. */
export function wanderOf(bins: readonly CoolingBin[]): readonly (number | null)[] {
  const half = Math.max(1, Math.ceil(bins.length / 8))
  return bins.map((bin, i) => {
    if (i === 0) return null
    const left = bins[Math.max(0, i - half)]!
    const right = bins[Math.min(bins.length - 1, i + half)]!
    const rateCPerMin = ((left.tempC - right.tempC) / (right.atMs - left.atMs)) * 60_000
    return (WANDER.guess * rateCPerMin) ** 2 * ((bin.atMs - bins[i - 1]!.atMs) / 60_000)
  })
}

function residuals(data: CoolingData, noise: number, at: readonly number[]): number[] {
  const { guess } = data
  return [
    ...innovationsAt(data, at).map((z) => z / noise),
    ...guess.mean.map((mean, i) => (at[i]! - mean) / guess.spread[i]!),
  ]
}

function innovationsAt({ bins, evaporation, wander }: CoolingData, at: readonly number[]): number[] {
  const curve = along(coolingParameters(at, evaporation), at[FROM]!, bins)
  return innovations(
    bins.map((bin, i) => ({ missC: curve[i]! - bin.tempC, wanderC2: wander[i]! })),
    { trembleC: TREMBLE_C, wander: 1 },
  )
}

/** The curve at the times of the bins, °C. */
export function along(p: CoolingParameters, fromC: number, bins: readonly CoolingBin[]): number[] {
  let tempC = fromC
  let atMs = bins[0]!.atMs
  return bins.map((bin) => {
    tempC = coolFor(p, tempC, (bin.atMs - atMs) / 1000)
    atMs = bin.atMs
    return tempC
  })
}

/** Runge and Kutta's fourth-order steps of at most a quarter of an hour; a bath's time constant is far longer. */
export function coolFor(p: CoolingParameters, fromC: number, forS: number): number {
  const steps = Math.max(1, Math.ceil(forS / Math.min(900, 0.15 / p.dryPerS)))
  const dtS = forS / Math.min(steps, 5000)
  let tempC = fromC
  for (let i = 0; i < Math.min(steps, 5000); i++) {
    const a = coolingRateCPerS(p, tempC)
    const b = coolingRateCPerS(p, tempC + (a * dtS) / 2)
    const c = coolingRateCPerS(p, tempC + (b * dtS) / 2)
    const d = coolingRateCPerS(p, tempC + c * dtS)
    tempC += ((a + 2 * b + 2 * c + d) * dtS) / 6
  }
  return tempC
}
