import { leastSquares } from './least-squares.ts'
import { cholesky, invertSymmetric, type Matrix } from './linear.ts'
import { PARAMETERS, type PotBelief } from './pot-belief.ts'
import { type PotModel, type PotNow, potModel, powerW, stepModel, tuned, type TunedPot } from './pot-model.ts'
import { type PotTrace, traceSteps, type TraceStep } from './pot-trace.ts'

export interface Learned {
  readonly belief: PotBelief
  /** Root of the mean squared misfit, °C; `null` when the trace held too little to learn from. */
  readonly misfitC: number | null
  /** The air that fits this trace best, °C. */
  readonly surroundingsC: number
  /** What the trace and the prior together speak against the fit: half of it is a log-likelihood. */
  readonly cost: number
}

/**
 * Spread of one mean reading, °C: layers, draughts and a burner's cycling are slow and do not average out; and the
 * mains wander, so that every stretch strays by a share of the way that it has come.
 */
const BELIEF_C = 0.2
const STRAY_SHARE = 0.02

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
  const fitAt = (missC: number, start?: readonly number[]) =>
    fitWith({ belief, model, steps, roomC, roomSpreadC: roomSpreadC(belief, trace), missC }, start)
  // From far away with a wide spread first: softened misses bend the way too much for long steps.
  const rough = fitAt(10 * BELIEF_C)
  const first = fitAt(BELIEF_C, rough.parameters)
  const likely = likelySpreadC(first.misses)
  const fit = likely > 1.3 * BELIEF_C ? fitAt(likely, first.parameters) : first
  return {
    belief: {
      vessel: belief.vessel,
      mean: fit.parameters.slice(0, PARAMETERS),
      covariance: fit.covariance.slice(0, PARAMETERS).map((row) => row.slice(0, PARAMETERS)),
      traces: belief.traces + 1,
    },
    misfitC: Math.sqrt(fit.misses.reduce((sum, miss) => sum + miss * miss, 0) / fit.misses.length),
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
  /** Spread of one mean reading, °C. */
  readonly missC: number
}

function fitWith(setting: FitSetting, start?: readonly number[]): Fit {
  const { belief, model, steps, roomC, missC } = setting
  // Residuals of the prior: W·(θ − mean) with WᵀW the inverse of its covariance.
  const information = invertSymmetric(belief.covariance)
  const whitening = information === null ? null : cholesky(information)
  if (whitening === null) throw new RangeError('a belief needs a covariance that is positive definite')
  const spreads = steps
    .filter((step) => step.observedC !== null && !step.anew)
    .map((step) => Math.hypot(missC, STRAY_SHARE * step.travelledC))
  const problem = {
    residuals: (at: readonly number[]) => [
      ...missesAlong(model, at, steps).map((miss, i) => softened(miss / spreads[i]!)),
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

/** Spread that the misses deserve, °C: their size, and how many neighbours say the same thing. */
function likelySpreadC(misses: readonly number[]): number {
  let square = 0
  let neighbours = 0
  for (const [i, miss] of misses.entries()) {
    square += miss * miss
    if (i > 0) neighbours += miss * misses[i - 1]!
  }
  const alike = Math.min(0.95, Math.max(0, neighbours / Math.max(square, 1e-12)))
  return Math.sqrt((square / misses.length) * ((1 + alike) / (1 - alike)))
}
