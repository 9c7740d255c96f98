import { leastSquares } from './least-squares.ts'
import { cholesky, invertSymmetric, type Matrix } from './linear.ts'
import { PARAMETERS, type PotBelief } from './pot-belief.ts'
import {
  lossW,
  type PotModel,
  type PotNow,
  potModel,
  powerW,
  stepModel,
  tuned,
  type TunedPot,
} from './pot-model.ts'
import { type PotTrace, traceSteps, type TraceStep } from './pot-trace.ts'
import { innovations, rootMeanSquare } from './wander.ts'

export interface Learned {
  readonly belief: PotBelief
  /** Root of the mean squared misfit, °C; `null` when the trace held too little to learn from. */
  readonly misfitC: number | null
  /** The air that fits this trace best, °C. */
  readonly surroundingsC: number
  /** What the trace and the prior together speak against the fit: half of it is a log-likelihood. */
  readonly cost: number
}

/** Spread of one mean reading by itself, °C: the probe's steps, layers that come and go, a burner's cycling. */
const TREMBLE_C = 0.06

/**
 * How heat wanders off the model: standard deviation after one minute as a share of the loss and of the power; it
 * grows with the root of the minutes. Losses that change by 6 % over ten minutes and mains by 2 % over an hour
 * give about these.
 */
const WANDER = { ofLoss: 0.2, ofPower: 0.12 } as const

/** The noise as found may be so much smaller or larger than expected. */
const NOISE = { least: 0.6, most: 6 } as const

/** Spread of the air around what is known of it, °C. */
const ROOM_C = { known: 1.5, unknown: 4 } as const

/** Wet goods make the pot hold this much more heat: about 1 kg to 20 L, twice its weight in water with it. */
const GOODS = 1.06

/**
 * What one trace adds to what is believed (maximum a posteriori, Levenberg–Marquardt). Readings that stray are
 * weighed down; when the model misses by more than expected the trace counts for less.
 */
export function learnFrom(belief: PotBelief, trace: PotTrace): Learned {
  const steps = traceSteps(trace)
  const model = potModel(belief.vessel)
  const roomC = trace.surroundingsC ?? model.roomC
  if (steps.filter((step) => step.observedC !== null).length < 10)
    return { belief, misfitC: null, surroundingsC: roomC, cost: 0 }
  const setting = { belief, model, steps, roomC, roomSpreadC: roomSpreadC(belief, trace) }
  // From far away with every reading by itself: only then is it known how much the bath may wander.
  const rough = fitWith(setting, (misses) => misses.map((miss) => softened(miss / ROUGH_C)))
  const wander = wanderAlong(model, rough.parameters, steps)
  const surprises = (misses: readonly number[]) =>
    innovations(
      misses.map((missC, i) => ({ missC, wanderC2: wander[i]! })),
      TREMBLE_C,
    )
  const judged = (noise: number) => (misses: readonly number[]) =>
    surprises(misses).map((z) => softened(z / noise))
  const first = fitWith(setting, judged(1), rough.parameters)
  const noise = Math.min(NOISE.most, Math.max(NOISE.least, rootMeanSquare(surprises(first.misses))))
  const fit = fitWith(setting, judged(noise), first.parameters)
  return {
    belief: {
      vessel: belief.vessel,
      mean: fit.parameters.slice(0, PARAMETERS),
      covariance: fit.covariance.slice(0, PARAMETERS).map((row) => row.slice(0, PARAMETERS)),
      traces: belief.traces + 1,
    },
    misfitC: rootMeanSquare(fit.misses),
    surroundingsC: fit.parameters[PARAMETERS]!,
    cost: first.cost,
  }
}

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

/** Model minus reading along a trace, °C, for every mean reading but those where the model starts anew. */
function missesAlong(model: PotModel, at: readonly number[], steps: readonly TraceStep[]): number[] {
  const pot = tuned(model, at)
  const misses: number[] = []
  const powers = new Map<number, number>()
  const powerOf = (dial: number) => {
    if (!powers.has(dial)) powers.set(dial, powerW(pot, dial))
    return powers.get(dial)!
  }
  let now = startOf(pot, at[PARAMETERS]!, steps)
  let goodsIn = false
  for (const step of steps) {
    if (step.goodsIn !== goodsIn) {
      goodsIn = step.goodsIn
      now = heldBy(now, goodsIn ? GOODS : 1 / GOODS)
    }
    const setting = { intoW: powerOf(step.dial), lid: step.lid, roomC: at[PARAMETERS]! }
    now = stepModel(pot, setting, now, step.dtS)
    if (step.observedC === null) continue
    if (step.anew) now = anewFrom(now, step.observedC)
    else misses.push(now.probeC - step.observedC)
  }
  return misses
}

const heldBy = (now: PotNow, factor: number): PotNow => ({
  ...now,
  capacityJPerC: now.capacityJPerC * factor,
})

/** The probe's lead over the water is kept, so that a jump does not look like a rise. */
const anewFrom = (now: PotNow, observedC: number): PotNow => ({
  ...now,
  probeC: observedC,
  waterC: observedC + Math.max(-2, Math.min(2, now.waterC - now.probeC)),
})

/** A trace that begins warm with the dial on was heated before; one that begins cold was not. */
function startOf(pot: TunedPot, roomC: number, steps: readonly TraceStep[]): PotNow {
  const tempC = steps.find((step) => step.observedC !== null)!.observedC!
  const dial = steps.find((step) => step.dtS > 0)?.dial ?? 0
  const heatW = tempC > roomC + 25 ? powerW(pot, dial) : 0
  return { waterC: tempC, probeC: tempC, heatW, capacityJPerC: pot.capacityJPerC }
}

/** Variance that the bath may have wandered between one miss and the next, °C²; `null` where the model begins anew. */
function wanderAlong(model: PotModel, at: readonly number[], steps: readonly TraceStep[]): (number | null)[] {
  const pot = tuned(model, at)
  const wander: (number | null)[] = []
  let sinceC2 = 0
  let isAnew = true
  let tempC = steps.find((step) => step.observedC !== null)!.observedC!
  for (const step of steps) {
    const minutes = step.dtS / 60
    const lossCPerMin = (60 * lossW(pot, step.lid, at[PARAMETERS]!, tempC)) / pot.capacityJPerC
    const powerCPerMin = (60 * powerW(pot, step.dial)) / pot.capacityJPerC
    sinceC2 += ((WANDER.ofLoss * lossCPerMin) ** 2 + (WANDER.ofPower * powerCPerMin) ** 2) * minutes
    if (step.observedC === null) continue
    tempC = step.observedC
    if (!step.anew) wander.push(isAnew ? null : sinceC2)
    isAnew = step.anew
    sinceC2 = 0
  }
  return wander
}
