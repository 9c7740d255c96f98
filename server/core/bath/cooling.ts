import {
  type CoolingGuess,
  coolingParameters,
  type CoolingParameters,
  coolingRateCPerS,
  type CoolingVector,
  guessCooling,
  learnedCooling,
  type Lid,
} from './cooling-law.ts'
import { type EvaporationTable, evaporationTable } from './evaporation-table.ts'
import { type CoolingBin, coolingBins, noiseC } from './cooling-bins.ts'
import { leastSquares } from './least-squares.ts'
import type { Matrix } from './linear.ts'
import type { PotBelief } from './pot-belief.ts'
import type { Vessel } from './vessel.ts'
import { innovations, rootMeanSquare } from './wander.ts'

export interface CoolingPrior {
  readonly vessel?: Vessel | null
  /** What was learned of the pot: better than the vessel alone once the lid is noted. */
  readonly belief?: PotBelief
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
  /** The bath at `toMs`, where the curve goes on from: by then it may have wandered off the fitted one. */
  readonly toC: number
  readonly parameters: CoolingParameters
  readonly vector: CoolingVector
  /** Of `vector`, and `fromC` after it. */
  readonly covariance: Matrix
  /** Spread of the loss after one minute as a share of it; it grows with the root of the minutes. */
  readonly wanderPerRootMin: number
  readonly evaporation: EvaporationTable
  /** Root of the mean squared misfit, °C. */
  readonly misfitC: number
  /** Multiple of the expected loss that was found: 2 means it cools twice as fast as this pot should. */
  readonly lossRatio: number
}

/** Place of the curve's begin in the fitted vector. */
const FROM = 5

/** Spread of one mean reading by itself, °C. */
const TREMBLE_C = 0.04

/**
 * How the loss wanders with draughts and the room: standard deviation after one minute as a share of it, growing
 * with the root of the minutes. What is found counts as much as this many minutes of the guess.
 */
const WANDER = { guess: 0.3, worthBins: 15, least: 0.5, most: 4 } as const

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
  const guess = guessOf(prior)
  const evaporation = evaporationTable(guess.mean[2], guess.altitudeM)
  const data = { bins, guess, evaporation, wander: wanderOf(bins) }
  const first = fitWith(data, 1, [...guess.mean, bins[0]!.tempC])
  const noise = noiseOf(data, first.parameters)
  const fit = fitWith(data, noise, first.parameters)
  const parameters = coolingParameters(fit.parameters, evaporation)
  const curve = along(parameters, fit.parameters[FROM]!, bins)
  const misfitC = rootMeanSquare(bins.map((bin, i) => bin.tempC - curve[i]!))
  return {
    verdict: judge(bins, misfitC, fit.parameters, guess),
    tauMin: singleTauMin(bins, curve, parameters.roomC),
    surroundingsC: parameters.roomC,
    fromMs: bins[0]!.atMs,
    toMs: bins.at(-1)!.atMs,
    fromC: fit.parameters[FROM]!,
    toC: curve.at(-1)! + lateMissC(bins, curve),
    parameters,
    vector: fit.parameters.slice(0, FROM) as unknown as CoolingVector,
    covariance: fit.covariance!,
    wanderPerRootMin: WANDER.guess * noise,
    evaporation,
    misfitC,
    lossRatio: lossRatio(parameters, guess, evaporation, bins),
  }
}

function guessOf({ vessel, belief, lid, surroundingsC, surroundingsSpreadC }: CoolingPrior): CoolingGuess {
  if (belief !== undefined && belief.traces > 0 && (lid === 'on' || lid === 'off'))
    return learnedCooling(belief, lid, surroundingsC, surroundingsSpreadC)
  return guessCooling(vessel ?? null, lid ?? null, surroundingsC, surroundingsSpreadC)
}

/** How far the bath has wandered off the curve by the last few bins, °C. */
function lateMissC(bins: readonly CoolingBin[], curve: readonly number[]): number {
  const last = Math.min(3, bins.length)
  let sum = 0
  for (let i = bins.length - last; i < bins.length; i++) sum += bins[i]!.tempC - curve[i]!
  return sum / last
}

interface CoolingData {
  readonly bins: readonly CoolingBin[]
  readonly guess: CoolingGuess
  readonly evaporation: EvaporationTable
  /** Variance gained since the bin before, °C²; `null` for the first. */
  readonly wander: readonly (number | null)[]
}

function fitWith(data: CoolingData, noise: number, start: readonly number[]) {
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
function noiseOf(data: CoolingData, at: readonly number[]): number {
  const found = innovationsAt(data, at)
  const square = found.reduce((sum, z) => sum + z * z, WANDER.worthBins) / (found.length + WANDER.worthBins)
  return Math.min(WANDER.most, Math.max(WANDER.least, Math.sqrt(square)))
}

/** From the fall around each bin; its own noise must not make a steep bin look loose. */
function wanderOf(bins: readonly CoolingBin[]): readonly (number | null)[] {
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
    TREMBLE_C,
  )
}

/** The curve at the times of the bins, °C. */
function along(p: CoolingParameters, fromC: number, bins: readonly CoolingBin[]): number[] {
  let tempC = fromC
  let atMs = bins[0]!.atMs
  return bins.map((bin) => {
    tempC = coolFor(p, tempC, (bin.atMs - atMs) / 1000)
    atMs = bin.atMs
    return tempC
  })
}

/** Runge and Kutta's fourth-order steps of at most five minutes; a bath's time constant is far longer. */
export function coolFor(p: CoolingParameters, fromC: number, forS: number): number {
  const steps = Math.max(1, Math.ceil(forS / Math.min(300, 0.25 / p.dryPerS)))
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
    coolingRateCPerS(p, middleC) /
    coolingRateCPerS({ ...coolingParameters(guess.mean, table), roomC: p.roomC }, middleC)
  )
}

/** The fitted curve at a time, °C; after `toMs` it goes on from `toC`. Before `fromMs`: `fromC`. */
export function coolingAt(fit: CoolingFit, atMs: number): number {
  const from = atMs > fit.toMs ? { atMs: fit.toMs, tempC: fit.toC } : { atMs: fit.fromMs, tempC: fit.fromC }
  return coolFor(fit.parameters, from.tempC, Math.max(0, (atMs - from.atMs) / 1000))
}

/** The same law from here on: the curve then begins at what the bath is now, as sure as an estimate is. */
export function fromHere(fit: CoolingFit, atMs: number, tempC: number): CoolingFit {
  const covariance = fit.covariance.map((row, i) =>
    row.map((value, j) => (i < FROM && j < FROM ? value : i === j ? ESTIMATE_C ** 2 : 0)),
  )
  return { ...fit, fromMs: atMs, toMs: atMs, fromC: tempC, toC: tempC, covariance }
}

/** Spread of an estimate of the bath, °C. */
const ESTIMATE_C = 0.1
