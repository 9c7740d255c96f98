import type { CoolingFit } from './cooling.ts'
import { coolFor } from './cooling-curve.ts'
import { coolingParameters } from './cooling-law.ts'
import { quadratic } from './linear.ts'
import { type ForecastPoint, NINETY } from './forecast.ts'

/** What the law leaves out: a share of the fall still to come, one standard deviation. */
const LAW_SHARE = 0.02

/** The fitted curve at equal steps from `fromMs` on, with its 90 % band. */
export function coolingBand(fit: CoolingFit, stepS: number, steps: number): readonly ForecastPoint[] {
  const at = [...fit.vector, fit.fromC]
  const mean = pathOf(fit, at, stepS, steps)
  const moved = at.map((_, i) => {
    const by = i === 2 || i === 5 ? 0.05 : 0.01
    const path = pathOf(
      fit,
      at.map((value, k) => (k === i ? value + by : value)),
      stepS,
      steps,
    )
    return path.map((tempC, k) => (tempC - mean[k]!) / by)
  })
  return mean.map((tempC, k) => {
    const slopes = moved.map((path) => path[k]!)
    const fallC = fit.fromC - tempC
    const wanderC = k === 0 ? 0 : (fit.wanderPerRootMin * fallC) / Math.sqrt((k * stepS) / 60)
    const spread = Math.hypot(Math.sqrt(quadratic(fit.covariance, slopes)), LAW_SHARE * fallC, wanderC)
    return { afterS: k * stepS, tempC, low90C: tempC - NINETY * spread, high90C: tempC + NINETY * spread }
  })
}

function pathOf(fit: CoolingFit, at: readonly number[], stepS: number, steps: number): number[] {
  const law = coolingParameters(at, fit.evaporation)
  const path = [at[5]!]
  for (let i = 0; i < steps; i++) path.push(coolFor(law, path[i]!, stepS))
  return path
}
