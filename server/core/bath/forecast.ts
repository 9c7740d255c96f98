import { type Course, courseC, type Horizon } from './course.ts'
import { cholesky, type Matrix } from './linear.ts'
import type { PotBelief } from './pot-belief.ts'
import { lossW, type PotNow, potModel, powerW, tuned, type TunedPot } from './pot-model.ts'

/** The bath as estimated now. */
export interface BathNow {
  readonly waterC: number
  readonly rateCPerMin: number
  /** Spread of `waterC`, °C (one standard deviation). */
  readonly spreadC?: number
  /** Multiplies the pot's heat capacity: wet goods and poured water make it larger. */
  readonly capacityFactor?: number
}

export interface ForecastPoint {
  readonly afterS: number
  readonly tempC: number
  /** The true temperature lies between these in nine cases of ten. */
  readonly low90C: number
  readonly high90C: number
}

/** 5th and 95th percentile of the normal distribution. */
export const NINETY = 1.645

/** Spread of the air around what is known of it, °C, and of an estimate of the bath. */
const ROOM_SPREAD_C = 1.5
const ESTIMATE_SPREAD_C = 0.15

/** What the model leaves out: a share of every change, and a wandering that grows with the root of the hours. */
const MODEL_SPREAD = { ofChange: 0.015, perRootHourC: 0.1 } as const

/**
 * The way of the bath from now on with its 90 % band: the mean course, and how far each parameter, within what is
 * believed of it, moves the course.
 */
export function forecastBath(
  belief: PotBelief,
  bath: BathNow,
  course: Course,
  horizon: Horizon,
): readonly ForecastPoint[] {
  const model = potModel(belief.vessel)
  const pathOf = (parameters: readonly number[], roomC: number) => {
    const pot = tuned(model, parameters)
    return courseC(pot, startOf(pot, bath, course), { ...course, roomC }, horizon)
  }
  const mean = pathOf(belief.mean, course.roomC)
  const moved = principal(belief.covariance).map((direction) =>
    pathOf(
      belief.mean.map((value, i) => value + direction[i]!),
      course.roomC,
    ),
  )
  moved.push(pathOf(belief.mean, course.roomC + ROOM_SPREAD_C))
  return mean.map((tempC, i) => {
    const afterS = Math.min(i * horizon.stepS, horizon.untilS)
    let variance = (bath.spreadC ?? ESTIMATE_SPREAD_C) ** 2
    for (const path of moved) variance += (path[i]! - tempC) ** 2
    variance += (MODEL_SPREAD.ofChange * (tempC - bath.waterC)) ** 2
    variance += MODEL_SPREAD.perRootHourC ** 2 * (afterS / 3600)
    const half = NINETY * Math.sqrt(variance)
    return { afterS, tempC, low90C: tempC - half, high90C: tempC + half }
  })
}

/** Columns of the covariance's Cholesky factor: independent directions, each one standard deviation long. */
function principal(covariance: Matrix): number[][] {
  const lower = cholesky(covariance)
  if (lower === null) throw new RangeError('a belief needs a covariance that is positive definite')
  return lower.map((_, column) => lower.map((row) => row[column] ?? 0))
}

/** Heat that flows into the bath now is what its rate and its loss say, within what the burner can have stored. */
export function startOf(pot: TunedPot, bath: BathNow, course: Course): PotNow {
  const capacityJPerC = pot.capacityJPerC * (bath.capacityFactor ?? 1)
  const neededW = (capacityJPerC * bath.rateCPerMin) / 60 + lossW(pot, course.lid, course.roomC, bath.waterC)
  const mostW = 1.3 * powerW(pot, pot.model.dialMax)
  return {
    waterC: bath.waterC,
    probeC: bath.waterC,
    heatW: Math.min(mostW, Math.max(0, neededW)),
    capacityJPerC,
  }
}

/** When the course first comes to a level, seconds from now; 0 when it is there, `null` when it never comes. */
export function reachesS(
  points: readonly { readonly afterS: number }[],
  values: readonly number[],
  levelC: number,
): number | null {
  if (values.length === 0) return null
  const fromBelow = values[0]! < levelC
  if (values[0] === levelC) return 0
  for (let i = 1; i < values.length; i++) {
    const isThere = fromBelow ? values[i]! >= levelC : values[i]! <= levelC
    if (!isThere) continue
    const along = (levelC - values[i - 1]!) / (values[i]! - values[i - 1]!)
    return points[i - 1]!.afterS + along * (points[i]!.afterS - points[i - 1]!.afterS)
  }
  return null
}
