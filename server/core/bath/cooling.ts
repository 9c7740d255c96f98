import { type CoolingBin, coolingBins } from './cooling-bins.ts'
import { along, coolFor, EXPECTED, fitCurve, FROM, noiseOf, SWAY_OF_LOSS, swayOf } from './cooling-curve.ts'
import {
  type CoolingGuess,
  coolingParameters,
  type CoolingParameters,
  type CoolingVector,
  guessCooling,
  learnedCooling,
  type Lid,
} from './cooling-law.ts'
import { type CoolingVerdict, judgeCooling, lossRatio, singleTauMin } from './cooling-verdict.ts'
import { type EvaporationTable, evaporationTable } from './evaporation-table.ts'
import type { Matrix } from './linear.ts'
import type { PotBelief } from './pot-belief.ts'
import type { Vessel } from './vessel.ts'
import { LASTS_MIN, rootMeanSquare } from './wander.ts'

export interface CoolingPrior {
  readonly vessel?: Vessel | null
  /** What was learned of the pot: better than the vessel alone once the lid is noted. */
  readonly belief?: PotBelief
  readonly lid?: Lid
  /** The room as measured or guessed, °C, and its spread (one standard deviation). */
  readonly surroundingsC?: number
  readonly surroundingsSpreadC?: number
}

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
  const evaporation = evaporationTable(guess.mean[2])
  const data = { bins, guess, evaporation, sway: swayOf(bins) }
  const first = fitCurve(data, EXPECTED, [...guess.mean, bins[0]!.tempC])
  const noise = noiseOf(data, first.parameters)
  const fit = fitCurve(data, noise, first.parameters)
  const parameters = coolingParameters(fit.parameters, evaporation)
  const curve = along(parameters, fit.parameters[FROM]!, bins)
  const misfitC = rootMeanSquare(bins.map((bin, i) => bin.tempC - curve[i]!))
  return {
    verdict: judgeCooling(bins, misfitC, fit.parameters, guess),
    tauMin: singleTauMin(bins, curve, parameters.roomC),
    surroundingsC: parameters.roomC,
    fromMs: bins[0]!.atMs,
    toMs: bins.at(-1)!.atMs,
    fromC: fit.parameters[FROM]!,
    toC: curve.at(-1)! + lateMissC(bins, curve),
    parameters,
    vector: fit.parameters.slice(0, FROM) as unknown as CoolingVector,
    covariance: fit.covariance!,
    wanderPerRootMin: SWAY_OF_LOSS * noise.sway * Math.sqrt(2 * LASTS_MIN),
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
