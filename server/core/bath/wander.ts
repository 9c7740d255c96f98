/** How far a model misses one mean reading, and what may have happened since the one before. */
export interface Miss {
  readonly missC: number
  /** Spread of the reading that is known beforehand, °C: a probe's coarse steps. */
  readonly roughC?: number
  readonly since: Since
}

/** `begins`: the model begins anew here, from a reading as rough as told. */
export type Since = { readonly kind: 'begins'; readonly roughC: number } | Sway

/** Draughts, mains and layers change slowly: for a while they carry the bath off the model, and what they did stays. */
export interface Sway {
  readonly kind: 'sways'
  readonly minutes: number
  /** Spread of the rate at which the bath is carried off, °C a minute. */
  readonly swayCPerMin: number
}

/** What misses are made of. */
export interface MissNoise {
  /** Spread of one mean reading by itself, °C, > 0. */
  readonly trembleC: number
  /** The sway over the one that the misses tell. */
  readonly sway: number
}

/** How far a miss lies from what those before it let expect, °C, and the variance of that, °C². */
export interface Surprise {
  readonly surpriseC: number
  readonly variance: number
}

/** How long a draught or a dip of the mains lasts, minutes (judged: draughts about ten, mains an hour). */
export const LASTS_MIN = 15

/** What has carried the bath off: how far, °C, and at what rate, °C a minute, with their covariance. */
interface Carried {
  readonly offC: number
  readonly rate: number
  readonly offOff: number
  readonly offRate: number
  /** `null`: as large as the next sway tells. */
  readonly rateRate: number | null
}

/**
 * Misses that tremble and sway → as many independent surprises. A Kalman filter for a rate that comes and goes
 * (Ornstein and Uhlenbeck's process) added up and seen through white noise; its innovations are independent
 * (Anderson and Moore 1979).
 */
export function surprises(misses: readonly Miss[], noise: MissNoise): Surprise[] {
  const white = noise.trembleC ** 2
  let now = anew(white)
  return misses.map(({ missC, roughC = 0, since }) => {
    now = since.kind === 'begins' ? anew(white + since.roughC ** 2) : carriedOn(now, since, noise.sway)
    const variance = now.offOff + white + roughC ** 2
    const surpriseC = missC - now.offC
    now = seen(now, surpriseC, variance)
    return { surpriseC, variance }
  })
}

/** Nothing has carried the bath off yet; the reading that the model began with trembled too. */
const anew = (white: number): Carried => ({ offC: 0, rate: 0, offOff: white, offRate: 0, rateRate: null })

function carriedOn(now: Carried, { minutes, swayCPerMin }: Sway, more: number): Carried {
  const spread2 = (more * swayCPerMin) ** 2
  const kept = Math.exp(-minutes / LASTS_MIN)
  const reach = LASTS_MIN * (1 - kept)
  const rateRate = now.rateRate ?? spread2
  const added = spread2 * (2 * LASTS_MIN * (minutes - reach) - reach ** 2)
  return {
    offC: now.offC + reach * now.rate,
    rate: kept * now.rate,
    offOff: now.offOff + 2 * reach * now.offRate + reach ** 2 * rateRate + added,
    offRate: kept * (now.offRate + reach * rateRate) + (spread2 * reach ** 2) / LASTS_MIN,
    rateRate: kept ** 2 * rateRate + spread2 * (1 - kept ** 2),
  }
}

function seen(now: Carried, surpriseC: number, variance: number): Carried {
  const off = now.offOff / variance
  const rate = now.offRate / variance
  return {
    offC: now.offC + off * surpriseC,
    rate: now.rate + rate * surpriseC,
    offOff: now.offOff * (1 - off),
    offRate: now.offRate * (1 - off),
    rateRate: now.rateRate === null ? null : now.rateRate - rate * now.offRate,
  }
}

/** Surprises of unit variance, to be squared and summed. */
export const innovations = (misses: readonly Miss[], noise: MissNoise): number[] =>
  surprises(misses, noise).map(({ surpriseC, variance }) => surpriseC / Math.sqrt(variance))

/** Root of the mean square: 1 when the variances were right. */
export const rootMeanSquare = (values: readonly number[]): number =>
  values.length === 0 ? 0 : Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length)
