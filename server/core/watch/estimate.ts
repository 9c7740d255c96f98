import type { Point } from './hold-pieces.ts'
import { type LevelRate, predict, update } from './kalman.ts'
import { type ProbeNoise, quantumOf, readingVariance, startNoise, stepNoise } from './probe-noise.ts'

/**
 * What a probe's readings say of its own temperature and rate: a Kalman filter of level and rate that gets
 * less stiff when the readings keep to one side, and that puts a reading aside which water can't explain
 * until the following ones tell whether it was a slip or a step.
 */
export interface Estimate {
  readonly last: Point
  readonly x: LevelRate
  readonly noise: ProbeNoise
  /** Running mean of the misses, in standard deviations: away from 0 while the bath changes its course. */
  readonly lean: number
  /** Readings put aside, oldest first. */
  readonly aside: readonly Point[]
  /** Since when the bath has run on without a step (goods in, a stir, a jug of water). */
  readonly stepMs: number
}

/** How fast a bath's rate wanders, (°C/min)² a minute: 0.14 °C/min within a minute (calculated, common pots). */
const WANDER = 0.02
const FREE_RATE_VAR = 5 ** 2
/** One reading far off may be a coarse probe's next step; only several running are a new course. */
const MOST_SIGMAS = 4
/** Up to here the misses fall on both sides. */
const LEANS = 0.8
/** Longer silence than this and the old course says nothing. */
const FORGET_MS = 5 * 60_000
/** A reading may lie this far off, and as much more as 2.5 °C/min can change in between. */
const SLIP_C = 0.8
const WATER_C_PER_MIN = 2.5
/** No bath heats faster; while a step settles the rate means nothing. */
const FASTEST_C_PER_MIN = 5
const ASIDE_AT_MOST_MS = 30_000

export function startEstimate(point: Point): Estimate {
  const noise = startNoise(point.atMs)
  return {
    last: point,
    x: { levelC: point.tempC, rateCPerMin: 0, varLevel: noise.variance, covar: 0, varRate: FREE_RATE_VAR },
    noise,
    lean: 0,
    aside: [],
    stepMs: point.atMs,
  }
}

/** The estimate after one more believed reading, later than all before. */
export function stepEstimate(e: Estimate, point: Point): Estimate {
  const dtMs = point.atMs - e.last.atMs
  if (dtMs <= 0) return e
  if (dtMs > FORGET_MS) return restartEstimate(e, point)
  const dtMin = dtMs / 60_000
  const ahead = predict(e.x, dtMin, WANDER * looseness(e.lean))
  const variance = readingVariance(e.noise, dtMs)
  const missC = point.tempC - ahead.levelC
  const sigmaC = Math.sqrt(ahead.varLevel + variance)
  const gateC = Math.max(5 * sigmaC, SLIP_C + 2 * quantumOf(e.noise) + WATER_C_PER_MIN * dtMin)
  if (Math.abs(missC) > gateC) return putAside(e, point, missC)
  const lean = 0.75 * e.lean + 0.25 * Math.max(-MOST_SIGMAS, Math.min(MOST_SIGMAS, missC / sigmaC))
  // Misses on one side are the bath's doing and tell nothing of the probe.
  const trembledC = Math.abs(lean) < LEANS ? missC : null
  return {
    last: point,
    x: update(ahead, point.tempC, variance),
    noise: stepNoise(e.noise, e.last, point, trembledC, ahead.varLevel),
    lean,
    aside: [],
    stepMs: e.stepMs,
  }
}

/** 1 while the misses fall on both sides; up to ten thousand while they keep to one. */
const looseness = (lean: number): number => 10 ** Math.min(4, 2 * Math.max(0, Math.abs(lean) - LEANS))

/** Another level, another course; what was learned of the probe stays. */
export const restartEstimate = (e: Estimate, point: Point): Estimate => ({
  ...startEstimate(point),
  noise: { ...e.noise, sameSinceMs: point.atMs, lastRunMs: 0 },
})

/** The level is held while readings are aside; two that agree make a step, and so does half a minute of them. */
function putAside(e: Estimate, point: Point, missC: number): Estimate {
  const before = e.aside.at(-1)
  const aside = [...e.aside, point]
  const held = { ...e, last: { ...e.last, tempC: point.tempC, atMs: point.atMs }, aside, lean: 0 }
  const x = { ...e.x, rateCPerMin: 0 }
  if (before === undefined) return { ...held, x }
  const dtMin = (point.atMs - before.atMs) / 60_000
  const movedC = Math.abs(point.tempC - before.tempC)
  const settledC = 0.15 + 2 * quantumOf(e.noise) + WATER_C_PER_MIN * dtMin
  const settled = movedC <= Math.min(settledC, Math.abs(missC) / 2)
  const longEnough = point.atMs - aside[0]!.atMs >= ASIDE_AT_MOST_MS
  return settled || longEnough ? restartEstimate(e, point) : { ...held, x }
}

/** Temperature of the bath around a probe that lags behind it by `lagS` (first order), and how sure, °C. */
export function bathOf(e: Estimate, lagS: number): { tempC: number; rateCPerMin: number; sigmaC: number } {
  const lagMin = lagS / 60
  const { x } = e
  const leadRate = Math.min(FASTEST_C_PER_MIN, Math.max(-FASTEST_C_PER_MIN, x.rateCPerMin))
  const variance = x.varLevel + 2 * lagMin * x.covar + lagMin ** 2 * x.varRate
  return {
    tempC: x.levelC + lagMin * leadRate,
    rateCPerMin: x.rateCPerMin,
    sigmaC: Math.sqrt(Math.max(0, variance)),
  }
}
