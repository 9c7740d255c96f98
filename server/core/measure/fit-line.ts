import type { CheckPoint } from './check-point.ts'

/** A least-squares line of corrections over readings, with what is not sure about it. */
export interface FittedLine {
  /** The correction is `atRefC + slope · (raw − refC)`, °C. */
  readonly refC: number
  readonly atRefC: number
  readonly slope: number
  /** Standard uncertainties of the two, from the scatter alone, and their correlation (−1…1). */
  readonly uAtRefC: number
  readonly uSlope: number
  readonly correlation: number
  /** Residual standard deviation, °C. */
  readonly residualC: number
}

/**
 * The straight line of corrections (true − raw) through three or more checks, as JCGM 100:2008 (GUM) H.3.2 does it.
 * `refC`: where the line is anchored; at the mean of the readings, the default, the two coefficients are not
 * correlated. Throws RangeError under three points or when all readings are one.
 */
export function fitLine(points: readonly CheckPoint[], refC = mean(points.map((p) => p.rawC))): FittedLine {
  const n = points.length
  if (n < 3) throw new RangeError(`expected at least three checks, got ${n}`)
  const x = points.map((p) => p.rawC - refC)
  const b = points.map((p) => p.trueC - p.rawC)
  const sumX = sum(x)
  const sumXX = sum(x.map((v) => v * v))
  const determinant = n * sumXX - sumX ** 2
  if (determinant <= 1e-9 * n * sumXX)
    throw new RangeError('expected checks at different readings, got one reading')
  const sumXB = sum(x.map((v, i) => v * b[i]!))
  const atRefC = (sum(b) * sumXX - sumXB * sumX) / determinant
  const slope = (n * sumXB - sum(b) * sumX) / determinant
  const residualC = Math.sqrt(sum(b.map((v, i) => (v - atRefC - slope * x[i]!) ** 2)) / (n - 2))
  return {
    refC,
    atRefC,
    slope,
    uAtRefC: residualC * Math.sqrt(sumXX / determinant),
    uSlope: residualC * Math.sqrt(n / determinant),
    correlation: -sumX / Math.sqrt(n * sumXX),
    residualC,
  }
}

/** Standard uncertainty of the line's correction at this reading, °C; GUM H.3.4 with its covariance. */
export function lineUncertaintyC(line: FittedLine, rawC: number): number {
  const x = rawC - line.refC
  const covariance = line.correlation * line.uAtRefC * line.uSlope
  return Math.sqrt(line.uAtRefC ** 2 + x ** 2 * line.uSlope ** 2 + 2 * x * covariance)
}

const sum = (values: readonly number[]): number => values.reduce((a, v) => a + v, 0)
const mean = (values: readonly number[]): number => sum(values) / values.length
