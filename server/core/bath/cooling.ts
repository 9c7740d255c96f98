import {
  type CoolingGuess,
  coolingParameters,
  type CoolingParameters,
  coolingRateCPerS,
  type EvaporationTable,
  evaporationTable,
  guessCooling,
  type Lid,
} from './cooling-law.ts'
import { type CoolingBin, coolingBins, noiseC } from './cooling-bins.ts'
import { leastSquares } from './least-squares.ts'
import type { Matrix } from './linear.ts'
import type { Vessel } from './vessel.ts'

export interface CoolingPrior {
  readonly vessel?: Vessel | null
  readonly lid?: Lid
  /** The room as measured or guessed, °C, and its spread (one standard deviation). */
  readonly surroundingsC?: number
  readonly surroundingsSpreadC?: number
}

/**
 * `wrong-shape`: no curve of this law fits. `needs-heat`: it rises, or levels out far above the room.
 * Neither says when the bath will be cool.
 */
export type CoolingVerdict = 'good' | 'wrong-shape' | 'needs-heat'

export interface CoolingFit {
  readonly verdict: CoolingVerdict
  /** Time constant of the single exponential through the first and the last fitted value, minutes. */
  readonly tauMin: number
  readonly surroundingsC: number
  readonly fromMs: number
  readonly toMs: number
  /** The curve at `fromMs`, °C. */
  readonly fromC: number
  readonly parameters: CoolingParameters
  /** Of ln k, ln m, Ta, n of the law, and `fromC`. */
  readonly covariance: Matrix
  readonly evaporation: EvaporationTable
  /** Root of the mean squared misfit, °C. */
  readonly misfitC: number
  /** Multiple of the expected loss that was found: 2 means it cools twice as fast as this pot should. */
  readonly lossRatio: number
}

/** Spread that one bin of the curve is believed to, °C: layers and draughts are slow and do not average out. */
const BELIEF_C = 0.08

/**
 * Fits a cool-down with heat off, from readings in time order (the rise after switching off and the first tenth
 * after it are left out). `null` with fewer than four readings or less than five minutes of falling.
 */
export function fitCooling(
  points: readonly { readonly atMs: number; readonly tempC: number }[],
  prior: CoolingPrior,
): CoolingFit | null {
  const bins = coolingBins(points)
  if (bins.length < 4 || bins.at(-1)!.atMs - bins[0]!.atMs < 300_000) return null
  const guess = guessCooling(
    prior.vessel ?? null,
    prior.lid ?? null,
    prior.surroundingsC,
    prior.surroundingsSpreadC,
  )
  const evaporation = evaporationTable(guess.mean[2], guess.altitudeM)
  const fit = leastSquares({
    residuals: (at) => residuals(at, bins, guess, evaporation),
    start: [...guess.mean, bins[0]!.tempC],
    typical: [0.1, 0.1, 1, 0.1, 1],
    tolerance: 1e-5,
    enough: 1e-3,
    oneSided: true,
    maxIterations: 40,
  })
  const parameters = coolingParameters(fit.parameters)
  const curve = along(parameters, evaporation, fit.parameters[4]!, bins)
  const misses = bins.map((bin, i) => bin.tempC - curve[i]!)
  const misfitC = Math.sqrt(misses.reduce((sum, miss) => sum + miss * miss, 0) / misses.length)
  const inflation = Math.max(1, (misfitC / BELIEF_C) ** 2)
  return {
    verdict: judge(bins, misfitC, fit.parameters, guess),
    tauMin: singleTauMin(bins, curve, parameters.roomC),
    surroundingsC: parameters.roomC,
    fromMs: bins[0]!.atMs,
    toMs: bins.at(-1)!.atMs,
    fromC: fit.parameters[4]!,
    parameters,
    covariance: fit.covariance!.map((row) => row.map((value) => value * inflation)),
    evaporation,
    misfitC,
    lossRatio: lossRatio(parameters, guess, evaporation, bins),
  }
}

function residuals(
  at: readonly number[],
  bins: readonly CoolingBin[],
  guess: CoolingGuess,
  evaporation: EvaporationTable,
): number[] {
  const curve = along(coolingParameters(at), evaporation, at[4]!, bins)
  return [
    ...bins.map((bin, i) => (curve[i]! - bin.tempC) / BELIEF_C),
    ...guess.mean.map((mean, i) => (at[i]! - mean) / guess.spread[i]!),
  ]
}

/** The curve at the times of the bins, °C. */
function along(
  p: CoolingParameters,
  table: EvaporationTable,
  fromC: number,
  bins: readonly CoolingBin[],
): number[] {
  let tempC = fromC
  let atMs = bins[0]!.atMs
  return bins.map((bin) => {
    tempC = coolFor(p, table, tempC, (bin.atMs - atMs) / 1000)
    atMs = bin.atMs
    return tempC
  })
}

/** Runge and Kutta's fourth-order steps of at most five minutes; a bath's time constant is far longer. */
export function coolFor(p: CoolingParameters, table: EvaporationTable, fromC: number, forS: number): number {
  const steps = Math.max(1, Math.ceil(forS / Math.min(300, 0.25 / p.dryPerS)))
  const dtS = forS / Math.min(steps, 5000)
  let tempC = fromC
  for (let i = 0; i < Math.min(steps, 5000); i++) {
    const a = coolingRateCPerS(p, table, tempC)
    const b = coolingRateCPerS(p, table, tempC + (a * dtS) / 2)
    const c = coolingRateCPerS(p, table, tempC + (b * dtS) / 2)
    const d = coolingRateCPerS(p, table, tempC + c * dtS)
    tempC += ((a + 2 * b + 2 * c + d) * dtS) / 6
  }
  return tempC
}

function judge(
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

function singleTauMin(bins: readonly CoolingBin[], curve: readonly number[], roomC: number): number {
  const spanMin = (bins.at(-1)!.atMs - bins[0]!.atMs) / 60_000
  return spanMin / Math.log((curve[0]! - roomC) / (curve.at(-1)! - roomC))
}

function lossRatio(
  p: CoolingParameters,
  guess: CoolingGuess,
  table: EvaporationTable,
  bins: readonly CoolingBin[],
): number {
  const middleC = (bins[0]!.tempC + bins.at(-1)!.tempC) / 2
  return (
    coolingRateCPerS(p, table, middleC) /
    coolingRateCPerS({ ...coolingParameters(guess.mean), roomC: p.roomC }, table, middleC)
  )
}

/** The fitted curve at a time, °C, also beyond the readings it was fitted to. Before `fromMs`: `fromC`. */
export function coolingAt(fit: CoolingFit, atMs: number): number {
  return coolFor(fit.parameters, fit.evaporation, fit.fromC, Math.max(0, (atMs - fit.fromMs) / 1000))
}

/** The same law from here on: the curve then begins at what the bath is now, as sure as an estimate is. */
export function fromHere(fit: CoolingFit, atMs: number, tempC: number): CoolingFit {
  const covariance = fit.covariance.map((row, i) =>
    row.map((value, j) => (i < 4 && j < 4 ? value : i === j ? ESTIMATE_C ** 2 : 0)),
  )
  return { ...fit, fromMs: atMs, toMs: atMs, fromC: tempC, covariance }
}

/** Spread of an estimate of the bath, °C. */
const ESTIMATE_C = 0.1
