import { fastestCPerMin } from './believable.ts'
import { leastSquares } from './least-squares.ts'
import { cholesky, invertSymmetric, type Matrix } from './linear.ts'
import { judgeNoise } from './miss-noise.ts'
import { PARAMETERS, type PotBelief } from './pot-belief.ts'
import { type PotModel, potModel } from './pot-model.ts'
import { type PotTrace, traceSteps, type TraceStep } from './pot-trace.ts'
import { missesAlong, missSetting } from './trace-misses.ts'
import { innovations, type MissNoise, rootMeanSquare } from './wander.ts'

export interface Learned {
  readonly belief: PotBelief
  /** Root of the mean squared misfit, °C; `null` when the trace held too little to learn from. */
  readonly misfitC: number | null
  /** The air that fits this trace best, °C. */
  readonly surroundingsC: number
  /** `false`: no setting of this pot gives such a trace (a dial noted wrongly, another pot), so nothing was learned. */
  readonly isLike: boolean
  /** What the trace and the prior together speak against the fit: half of it is a log-likelihood. */
  readonly cost: number
}

/** A mean reading trembles with the probe's steps, layers that come and go, and a burner's cycling. */
const EXPECTED: MissNoise = { trembleC: 0.06, sway: 1 }

/** Spread of the air around what is known of it, °C. */
const ROOM_C = { known: 1.5, unknown: 4 } as const

/**
 * What one trace adds to what is believed (maximum a posteriori, Levenberg–Marquardt). Readings that stray are
 * weighed down; when the model misses by more than expected the trace counts for less.
 */
export function learnFrom(belief: PotBelief, trace: PotTrace): Learned {
  const steps = traceSteps(trace, fastestCPerMin(belief.vessel))
  const model = potModel(belief.vessel)
  const roomC = trace.surroundingsC ?? model.roomC
  if (steps.filter((step) => step.observedC !== null).length < 10)
    return { belief, misfitC: null, surroundingsC: roomC, isLike: true, cost: 0 }
  const setting = { belief, model, steps, roomC, roomSpreadC: roomSpreadC(belief, trace) }
  // From far away with every reading by itself: only then is it known how much the bath may sway.
  const rough = fitWith(setting, (misses) => misses.map((miss) => softened(miss / ROUGH_C)))
  const known = missSetting(model, rough.parameters, steps)
  const told = (misses: readonly number[]) => misses.map((missC, i) => ({ missC, ...known[i]! }))
  const judged = (noise: MissNoise) => (misses: readonly number[]) =>
    innovations(told(misses), noise).map(softened)
  const first = fitWith(setting, judged(EXPECTED), rough.parameters)
  const noise = judgeNoise(told(first.misses), EXPECTED, softened)
  const fit = fitWith(setting, judged(noise), first.parameters)
  const isKnown = (trace.surroundingsC ?? belief.vessel.surroundingsC) !== undefined
  const isLike = middle(fit.misses.map(Math.abs)) < UNLIKE_C
  const given = givenRoom(fit, isKnown ? roomC : fit.parameters[PARAMETERS]!)
  return {
    belief: isLike ? { vessel: belief.vessel, ...given, traces: belief.traces + 1 } : belief,
    misfitC: rootMeanSquare(fit.misses),
    isLike,
    surroundingsC: fit.parameters[PARAMETERS]!,
    cost: first.cost,
  }
}

/** A model that misses half of the readings by this much has not understood the trace, °C (judged). */
const UNLIKE_C = 2

const middle = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? 0

const roomSpreadC = (belief: PotBelief, trace: PotTrace): number =>
  (trace.surroundingsC ?? belief.vessel.surroundingsC) === undefined ? ROOM_C.unknown : ROOM_C.known

interface Fit {
  readonly parameters: readonly number[]
  readonly covariance: Matrix
  readonly misses: readonly number[]
  readonly cost: number
}

interface FitSetting {
  readonly belief: PotBelief
  readonly model: PotModel
  readonly steps: readonly TraceStep[]
  readonly roomC: number
  readonly roomSpreadC: number
}

/** Spread of the first, rough fit, °C. */
const ROUGH_C = 2

/** Misses along the trace, °C → residuals. */
type Judge = (misses: readonly number[]) => readonly number[]

function fitWith(setting: FitSetting, judge: Judge, start?: readonly number[]): Fit {
  const { belief, model, steps, roomC } = setting
  // Residuals of the prior: W·(θ − mean) with WᵀW the inverse of its covariance.
  const information = invertSymmetric(belief.covariance)
  const whitening = information === null ? null : cholesky(information)
  if (whitening === null) throw new RangeError('a belief needs a covariance that is positive definite')
  const problem = {
    residuals: (at: readonly number[]) => [
      ...judge(missesAlong(model, at, steps)),
      ...whitened(whitening, belief.mean, at),
      (at[PARAMETERS]! - roomC) / setting.roomSpreadC,
    ],
    start: start ?? [...belief.mean, roomC],
    typical: [...belief.mean.map(() => 0.1), 1],
    tolerance: 1e-4,
    enough: 0.01,
    oneSided: true,
    maxIterations: 30,
  }
  const fit = leastSquares(problem)
  if (fit.covariance === null) throw new RangeError('a fit with a prior always has a covariance')
  return {
    parameters: fit.parameters,
    covariance: fit.covariance,
    misses: missesAlong(model, fit.parameters, steps),
    cost: fit.sumOfSquares,
  }
}

/**
 * What is believed if the air was at `roomC`. A wrong word for the air makes the loss per degree wrong, not the loss
 * itself; whoever asks with the same word again must get the loss as it was found.
 */
function givenRoom({ parameters, covariance }: Fit, roomC: number): Pick<PotBelief, 'mean' | 'covariance'> {
  const room = covariance[PARAMETERS]!
  const share = room.map((value) => value / room[PARAMETERS]!)
  const movedC = roomC - parameters[PARAMETERS]!
  const ofPot = covariance.slice(0, PARAMETERS)
  return {
    mean: ofPot.map((_, i) => parameters[i]! + share[i]! * movedC),
    covariance: ofPot.map((row, i) =>
      row.slice(0, PARAMETERS).map((value, j) => value - share[i]! * room[j]!),
    ),
  }
}

/** Lᵀ·(θ − mean), L the lower triangle of the information. */
function whitened(lower: Matrix, mean: readonly number[], at: readonly number[]): number[] {
  return mean.map((_, column) => {
    let sum = 0
    for (let row = column; row < mean.length; row++) sum += lower[row]![column]! * (at[row]! - mean[row]!)
    return sum
  })
}

/** Cauchy's loss: beyond four spreads a miss hardly counts for more the larger it is. */
const softened = (z: number): number => Math.sign(z) * 4 * Math.sqrt(Math.log1p((z / 4) ** 2))
