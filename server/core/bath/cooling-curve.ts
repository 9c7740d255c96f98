import type { CoolingBin } from './cooling-bins.ts'
import {
  type CoolingGuess,
  coolingParameters,
  type CoolingParameters,
  coolingRateCPerS,
} from './cooling-law.ts'
import type { EvaporationTable } from './evaporation-table.ts'
import { leastSquares } from './least-squares.ts'
import { judgeNoise } from './miss-noise.ts'
import { innovations, type Miss, type MissNoise, type Since } from './wander.ts'

/** Place of the curve's begin in the fitted vector. */
export const FROM = 5

/** Spread of one mean reading by itself, °C, before a curve is seen. */
export const EXPECTED: MissNoise = { trembleC: 0.04, sway: 1 }

/** Draughts and the room move the loss by such a share of it (judged; the curve has its say). */
export const SWAY_OF_LOSS = 0.03

/** What a cool-down is fitted to. */
export interface CoolingData {
  readonly bins: readonly CoolingBin[]
  readonly guess: CoolingGuess
  readonly evaporation: EvaporationTable
  /** Since the bin before; the curve begins at the first. */
  readonly sway: readonly Since[]
}

export function fitCurve(data: CoolingData, noise: MissNoise, start: readonly number[]) {
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

/** How much this curve trembles and sways. */
export const noiseOf = (data: CoolingData, at: readonly number[]): MissNoise =>
  judgeNoise(missesAt(data, at), EXPECTED, (z) => z)

/** From the fall around each bin; its own noise must not make a steep bin look loose. */
export function swayOf(bins: readonly CoolingBin[]): readonly Since[] {
  const half = Math.max(1, Math.ceil(bins.length / 8))
  return bins.map((bin, i) => {
    if (i === 0) return { kind: 'begins', roughC: 0 }
    const left = bins[Math.max(0, i - half)]!
    const right = bins[Math.min(bins.length - 1, i + half)]!
    const rateCPerMin = ((left.tempC - right.tempC) / (right.atMs - left.atMs)) * 60_000
    return {
      kind: 'sways',
      minutes: (bin.atMs - bins[i - 1]!.atMs) / 60_000,
      swayCPerMin: SWAY_OF_LOSS * rateCPerMin,
    }
  })
}

function residuals(data: CoolingData, noise: MissNoise, at: readonly number[]): number[] {
  const { guess } = data
  return [
    ...innovations(missesAt(data, at), noise),
    ...guess.mean.map((mean, i) => (at[i]! - mean) / guess.spread[i]!),
  ]
}

function missesAt({ bins, evaporation, sway }: CoolingData, at: readonly number[]): Miss[] {
  const curve = along(coolingParameters(at, evaporation), at[FROM]!, bins)
  return bins.map((bin, i) => ({ missC: curve[i]! - bin.tempC, since: sway[i]! }))
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
