import type { CoolingFit } from './cooling.ts'
import { coolingParameters, type CoolingParameters, coolingRateCPerS } from './cooling-law.ts'
import { quadratic } from './linear.ts'

export interface CoolArrival {
  readonly atMs: number
  /** The true time lies between these in nine cases of ten. */
  readonly early90Ms: number
  readonly late90Ms: number
}

/** Share of the remaining time by which the law itself may be wrong (one standard deviation; judged). */
const LAW_SPREAD = 0.02

/** When the bath falls to `targetC`; `null` when the surroundings are too warm for that, or heat is on. */
export function reachesC(fit: CoolingFit, targetC: number): CoolArrival | null {
  if (fit.verdict === 'needs-heat') return null
  const isPast = targetC > fit.toC
  const from = isPast ? { atMs: fit.fromMs, tempC: fit.fromC } : { atMs: fit.toMs, tempC: fit.toC }
  const at = fit.vector
  const arriveS = (q: readonly number[]) =>
    secondsTo(coolingParameters(q, fit.evaporation), from.tempC, targetC)
  const meanS = arriveS(at)
  if (!Number.isFinite(meanS)) return null
  const slopes = at.map((_, i) => slopeOf(arriveS, at, i))
  const ofLaw = fit.covariance.slice(0, 5).map((row) => row.slice(0, 5))
  const wanderS = fit.wanderPerRootMin * Math.sqrt(meanS / 60) * 60
  const spreadS = Math.hypot(Math.sqrt(quadratic(ofLaw, slopes)), LAW_SPREAD * meanS, wanderS)
  const half = isPast ? 0 : 1.645 * spreadS
  const ms = (s: number) => from.atMs + s * 1000
  return { atMs: ms(meanS), early90Ms: ms(meanS - Math.min(half, meanS)), late90Ms: ms(meanS + half) }
}

/** A one-sided slope where the far side can't arrive. */
function slopeOf(f: (q: readonly number[]) => number, at: readonly number[], index: number): number {
  const step = index === 2 ? 0.05 : 0.01
  const shifted = (by: number) => f(at.map((value, i) => (i === index ? value + by : value)))
  const up = shifted(step)
  const down = shifted(-step)
  if (Number.isFinite(up) && Number.isFinite(down)) return (up - down) / (2 * step)
  return Number.isFinite(down) ? (f(at) - down) / step : 0
}

/** ∫ dT ÷ rate by Simpson's rule; infinite when the curve never gets there. */
function secondsTo(p: CoolingParameters, fromC: number, targetC: number): number {
  if (targetC >= fromC) return 0
  if (coolingRateCPerS(p, targetC) >= -1e-9 || targetC <= p.roomC) return Number.POSITIVE_INFINITY
  // In the logarithm of the distance to the room the steps stay even when the target is close to it.
  const u0 = Math.log(targetC - p.roomC)
  const u1 = Math.log(fromC - p.roomC)
  const pieces = 48
  let sum = 0
  for (let i = 0; i <= pieces; i++) {
    const aboveC = Math.exp(u0 + ((u1 - u0) * i) / pieces)
    const weight = i === 0 || i === pieces ? 1 : i % 2 === 1 ? 4 : 2
    sum += (weight * aboveC) / -coolingRateCPerS(p, p.roomC + aboveC)
  }
  return (sum * (u1 - u0)) / pieces / 3
}
