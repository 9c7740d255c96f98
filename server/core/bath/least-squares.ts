import { cholesky, invertSymmetric, type Matrix, solveCholesky } from './linear.ts'

export interface LeastSquaresProblem {
  /** Residuals for these parameters, always as many; priors are residuals too: (value − mean) ÷ spread. */
  readonly residuals: (parameters: readonly number[]) => readonly number[]
  readonly start: readonly number[]
  /** Size of a change of each parameter that matters; sets the steps of the derivatives. Default: its own size. */
  readonly typical?: readonly number[]
  readonly maxIterations?: number
  /** Stops when no parameter moves by more than this share of itself (or of `typical`). */
  readonly tolerance?: number
  /** Also stops when a step lowers the sum of squares by less than this: 0.01 is a tenth of a standard deviation. */
  readonly enough?: number
  /** Derivatives from one side: half the work, enough where residuals are smooth and the answer needs few digits. */
  readonly oneSided?: boolean
}

export interface LeastSquaresFit {
  readonly parameters: readonly number[]
  /** Sum of the squared residuals. */
  readonly sumOfSquares: number
  /** (JᵀJ)⁻¹ at the end: the covariance for residuals of unit variance; `null` when a parameter can't be told. */
  readonly covariance: Matrix | null
  readonly iterations: number
  readonly converged: boolean
}

interface Step {
  readonly at: readonly number[]
  readonly residuals: readonly number[]
  readonly sum: number
}

/**
 * Levenberg and Marquardt's method: damped Gauss–Newton steps in parameters scaled by the largest curvature seen
 * (Moré 1978), damping after Nielsen 1999, steps bent along the curve of the model (geodesic acceleration, Transtrum
 * and Sethna 2012), derivatives by central differences. A step to where the residuals are not finite is taken back. Throws RangeError when they are not finite at the start.
 */
export function leastSquares(problem: LeastSquaresProblem): LeastSquaresFit {
  const { maxIterations = 200, tolerance = 1e-9, enough = 0 } = problem
  let now = evaluate(problem, problem.start)
  if (!Number.isFinite(now.sum)) throw new RangeError('the residuals at the start are not finite numbers')
  let damping = 1e-3
  let growth = 2
  let normal = normalEquations(problem, now)
  let scale = normal.curvature.map((row, i) => row[i]!)
  let iterations = 0
  for (; iterations < maxIterations; iterations++) {
    const move = bentStep(problem, now, normal, scale, damping)
    const next = move === null ? null : evaluate(problem, plus(now.at, move))
    const promised = move === null ? 0 : promisedGain(normal, scale, damping, move)
    const gain = next === null ? -1 : (now.sum - next.sum) / promised
    if (next !== null && gain > 0 && Number.isFinite(next.sum)) {
      const still = now.sum - next.sum < enough || isStill(problem, move!, now.at, tolerance)
      now = next
      if (still) return finish(problem, now, iterations, true)
      damping *= Math.max(1 / 3, 1 - (2 * gain - 1) ** 3)
      growth = 2
      normal = normalEquations(problem, now)
      scale = normal.curvature.map((row, i) => Math.max(row[i]!, scale[i]!))
    } else {
      if (move !== null && isStill(problem, move, now.at, tolerance * 1e-3)) break
      damping *= growth
      growth *= 2
    }
    if (damping > 1e30) break
  }
  return finish(problem, now, iterations, iterations < maxIterations)
}

interface NormalEquations {
  readonly columns: readonly (readonly number[])[]
  /** JᵀJ */
  readonly curvature: readonly number[][]
  /** −Jᵀr: downhill */
  readonly downhill: readonly number[]
}

function evaluate(problem: LeastSquaresProblem, at: readonly number[]): Step {
  const residuals = problem.residuals(at)
  let sum = 0
  for (const r of residuals) sum += r * r
  return { at, residuals, sum }
}

function normalEquations(problem: LeastSquaresProblem, now: Step): NormalEquations {
  const columns = now.at.map((_, i) => derivative(problem, now, i))
  const curvature = columns.map((a) => columns.map((b) => dot(a, b)))
  return { columns, curvature, downhill: columns.map((column) => -dot(column, now.residuals)) }
}

function derivative(problem: LeastSquaresProblem, now: Step, index: number): number[] {
  const size = Math.max(Math.abs(now.at[index]!), problem.typical?.[index] ?? 0) || 1
  const step = size * (problem.oneSided ? 1e-6 : 6e-6)
  const shifted = (by: number) => now.at.map((value, i) => (i === index ? value + by : value))
  const up = problem.residuals(shifted(step))
  const down = problem.oneSided ? now.residuals : problem.residuals(shifted(-step))
  const width = problem.oneSided ? step : 2 * step
  return up.map((value, i) => {
    const slope = (value - down[i]!) / width
    return Number.isFinite(slope) ? slope : 0
  })
}

/** A damped step with half its acceleration; `null` when it bends so much that the linear picture can't be trusted. */
function bentStep(
  problem: LeastSquaresProblem,
  now: Step,
  normal: NormalEquations,
  scale: readonly number[],
  damping: number,
): number[] | null {
  const lower = dampedCurvature(normal, scale, damping)
  if (lower === null) return null
  const move = solveCholesky(lower, normal.downhill)
  const ahead = problem.residuals(
    plus(
      now.at,
      move.map((step) => BEND * step),
    ),
  )
  const slope = now.residuals.map((_, k) =>
    normal.columns.reduce((sum, column, i) => sum + column[k]! * move[i]!, 0),
  )
  const bend = ahead.map((value, k) => (2 / BEND) * ((value - now.residuals[k]!) / BEND - slope[k]!))
  const acceleration = solveCholesky(
    lower,
    normal.columns.map((column) => -dot(column, bend)),
  )
  const length = (step: readonly number[]) => Math.hypot(...step.map((s, i) => s * Math.sqrt(scale[i]! || 1)))
  const isTame = 2 * length(acceleration) <= 0.75 * length(move)
  return isTame
    ? plus(
        move,
        acceleration.map((a) => a / 2),
      )
    : null
}

/** Share of a step at which its bend is measured. */
const BEND = 0.1

function dampedCurvature(normal: NormalEquations, scale: readonly number[], damping: number): Matrix | null {
  const damped = normal.curvature.map((row, i) =>
    row.map((value, j) => (i === j ? value + damping * (scale[i]! || 1) : value)),
  )
  return cholesky(damped)
}

function promisedGain(
  normal: NormalEquations,
  scale: readonly number[],
  damping: number,
  move: readonly number[],
): number {
  const gain = move.reduce(
    (sum, step, i) => sum + step * (damping * (scale[i]! || 1) * step + normal.downhill[i]!),
    0,
  )
  return Math.max(gain, 1e-300)
}

function isStill(
  problem: LeastSquaresProblem,
  move: readonly number[],
  at: readonly number[],
  tolerance: number,
): boolean {
  return move.every((step, i) => {
    const size = Math.max(Math.abs(at[i]!), problem.typical?.[i] ?? 0)
    return Math.abs(step) <= tolerance * (size + 1e-12)
  })
}

function finish(
  problem: LeastSquaresProblem,
  now: Step,
  iterations: number,
  converged: boolean,
): LeastSquaresFit {
  const covariance = invertSymmetric(normalEquations(problem, now).curvature)
  return { parameters: now.at, sumOfSquares: now.sum, covariance, iterations, converged }
}

const plus = (a: readonly number[], b: readonly number[]) => a.map((value, i) => value + b[i]!)
const dot = (a: readonly number[], b: readonly number[]) =>
  a.reduce((sum, value, i) => sum + value * b[i]!, 0)
