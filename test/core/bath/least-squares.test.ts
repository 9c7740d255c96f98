import { expect, test } from 'vitest'
import { leastSquares } from '#core/bath/least-squares'

// NIST Statistical Reference Datasets, nonlinear regression (public domain): data, starts and certified values.
interface Certified {
  readonly y: readonly number[]
  readonly x: readonly number[]
  readonly model: (b: readonly number[], x: number) => number
  readonly starts: readonly (readonly number[])[]
  readonly value: readonly number[]
  readonly spread?: readonly number[]
  readonly sumOfSquares: number
}

const saturation = (b: readonly number[], x: number) => b[0]! * (1 - Math.exp(-b[1]! * x))

const PROBLEMS: Readonly<Record<string, Certified>> = {
  Misra1a: {
    y: [10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.4, 75.47, 81.78],
    x: [77.6, 114.9, 141.1, 190.8, 239.9, 289, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760],
    model: saturation,
    starts: [
      [500, 1e-4],
      [250, 5e-4],
    ],
    value: [2.3894212918e2, 5.5015643181e-4],
    spread: [2.7070075241, 7.2668688436e-6],
    sumOfSquares: 1.2455138894e-1,
  },
  BoxBOD: {
    y: [109, 149, 149, 191, 213, 224],
    x: [1, 2, 3, 5, 7, 10],
    model: saturation,
    starts: [
      [1, 1],
      [100, 0.75],
    ],
    value: [2.1380940889e2, 5.4723748542e-1],
    spread: [1.2354515176e1, 1.0455993237e-1],
    sumOfSquares: 1.1680088766e3,
  },
  MGH17: {
    y: [
      0.844, 0.908, 0.932, 0.936, 0.925, 0.908, 0.881, 0.85, 0.818, 0.784, 0.751, 0.718, 0.685, 0.658, 0.628,
      0.603, 0.58, 0.558, 0.538, 0.522, 0.506, 0.49, 0.478, 0.467, 0.457, 0.448, 0.438, 0.431, 0.424, 0.42,
      0.414, 0.411, 0.406,
    ],
    x: Array.from({ length: 33 }, (_, i) => 10 * i),
    model: (b, x) => b[0]! + b[1]! * Math.exp(-x * b[3]!) + b[2]! * Math.exp(-x * b[4]!),
    starts: [
      [50, 150, -100, 1, 2],
      [0.5, 1.5, -1, 0.01, 0.02],
    ],
    value: [3.7541005211e-1, 1.9358469127, -1.4646871366, 1.286753464e-2, 2.2122699662e-2],
    sumOfSquares: 5.4648946975e-5,
  },
}

for (const [name, problem] of Object.entries(PROBLEMS)) {
  for (const [n, start] of problem.starts.entries()) {
    test(`leastSquares reaches the certified values of NIST StRD ${name} from start ${n + 1}`, () => {
      const residuals = (b: readonly number[]) => problem.x.map((x, i) => problem.model(b, x) - problem.y[i]!)
      const fit = leastSquares({ residuals, start, maxIterations: 2000 })
      expect(fit.converged).toBe(true)
      expect(fit.sumOfSquares / problem.sumOfSquares).toBeCloseTo(1, 6)
      for (const [i, value] of problem.value.entries()) {
        expect(Math.abs(fit.parameters[i]! / value - 1)).toBeLessThan(1e-6)
      }
      const variance = fit.sumOfSquares / (problem.x.length - start.length)
      for (const [i, spread] of (problem.spread ?? []).entries()) {
        expect(Math.sqrt(variance * fit.covariance![i]![i]!) / spread).toBeCloseTo(1, 4)
      }
    })
  }
}

test('leastSquares says which parameters cannot be told by giving no covariance', () => {
  const fit = leastSquares({ residuals: ([a, b]) => [a! + b! - 1], start: [3, 4] })
  expect(fit.covariance).toBeNull()
})

test('leastSquares refuses a start with residuals that are not finite', () => {
  expect(() => leastSquares({ residuals: () => [Number.NaN], start: [1] })).toThrow(RangeError)
})

// A course notebook on first-order-plus-dead-time fits: the step response of (1 − 2s)/(25s² + 10s + 1). Its
// fit by least absolute error is published: gain 1.024, τ 8.04, θ 4.61.
const TIMES = Array.from({ length: 100 }, (_, i) => 0.35 * i)
const RESPONSE = TIMES.map((t) => 1 - Math.exp(-t / 5) * (1 + t / 5 + (2 * t) / 25))
const misses = ([gain, lag, dead]: readonly number[]) =>
  TIMES.map((t, i) => (t <= dead! ? 0 : gain! * (1 - Math.exp(-(t - dead!) / lag!))) - RESPONSE[i]!)

test('leastSquares, with weights that turn squares into amounts, identifies a published lag and dead time', () => {
  let at: readonly number[] = [1, 8, 4.5]
  for (let i = 0; i < 40; i++) {
    const weights = misses(at).map((miss) => 1 / Math.sqrt(Math.abs(miss) + 1e-3))
    const residuals = (b: readonly number[]) => misses(b).map((miss, k) => miss * weights[k]!)
    at = leastSquares({ residuals, start: at }).parameters
  }
  for (const [i, value] of [1.024, 8.04, 4.61].entries())
    expect(Math.abs(at[i]! / value - 1)).toBeLessThan(0.03)
})
