/** A level and its rate with their covariance; °C and minutes. */
export interface LevelRate {
  readonly levelC: number
  readonly rateCPerMin: number
  readonly varLevel: number
  readonly covar: number
  readonly varRate: number
}

/**
 * The state `dtMin` minutes on, when the rate wanders as integrated white noise of density `q`,
 * (°C/min)² a minute (the "continuous white noise acceleration" model of the tracking textbooks).
 */
export function predict(x: LevelRate, dtMin: number, q: number): LevelRate {
  const { varLevel, covar, varRate } = x
  return {
    levelC: x.levelC + x.rateCPerMin * dtMin,
    rateCPerMin: x.rateCPerMin,
    varLevel: varLevel + dtMin * (2 * covar + dtMin * varRate) + (q * dtMin ** 3) / 3,
    covar: covar + dtMin * varRate + (q * dtMin ** 2) / 2,
    varRate: varRate + q * dtMin,
  }
}

/** The state after a measurement of the level with variance `r` > 0. */
export function update(x: LevelRate, measuredC: number, r: number): LevelRate {
  const s = x.varLevel + r
  const gainLevel = x.varLevel / s
  const gainRate = x.covar / s
  const missC = measuredC - x.levelC
  return {
    levelC: x.levelC + gainLevel * missC,
    rateCPerMin: x.rateCPerMin + gainRate * missC,
    varLevel: (1 - gainLevel) * x.varLevel,
    covar: (1 - gainLevel) * x.covar,
    varRate: x.varRate - gainRate * x.covar,
  }
}
