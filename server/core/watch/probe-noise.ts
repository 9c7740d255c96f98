import type { Point } from './hold-pieces.ts'

/** What the readings themselves tell of the probe: how fine it counts, how much it trembles. */
export interface ProbeNoise {
  /** The smallest step seen between two readings, °C; `Infinity` before there was one. */
  readonly leastStepC: number
  /** How many steps have been seen, up to `ENOUGH_STEPS`. */
  readonly steps: number
  /** Variance of a reading about the bath, °C². */
  readonly variance: number
  /** Since when the value has been the same to the last digit. */
  readonly sameSinceMs: number
  /** How long the same value stood before the present one, ms. */
  readonly lastRunMs: number
  /** The last three times that the readings turned, from up to down or back; oldest first. */
  readonly turnsMs: readonly number[]
  readonly wentUp: boolean | null
  /** The longest time of late that one value stood, and when that ended. */
  readonly longRunMs: number
  readonly longRunEndMs: number
}

/** 0.05 °C until better known: between a platinum probe and a one-wire chip (order of magnitude, no source). */
const FIRST_VARIANCE = 0.05 ** 2
const LEAST_VARIANCE = 0.01 ** 2
const MOST_VARIANCE = 0.5 ** 2
/** No probe on sale counts coarser than whole °F; a larger step is the bath's, not the probe's. */
const COARSEST_C = 0.56
const ENOUGH_STEPS = 4
const HOUR_MS = 3_600_000
const LONGEST_RUN_MS = 120_000
/** About fifty readings to learn it. */
const LEARNING = 0.02

export const startNoise = (atMs: number): ProbeNoise => ({
  leastStepC: Infinity,
  steps: 0,
  variance: FIRST_VARIANCE,
  sameSinceMs: atMs,
  lastRunMs: 0,
  turnsMs: [],
  wentUp: null,
  longRunMs: 0,
  longRunEndMs: atMs,
})

/**
 * After one more reading; `missC`: how far it lay from what was expected, `null`: that tells nothing of the probe;
 * `expectedVar`: of how sure that was.
 */
export function stepNoise(
  noise: ProbeNoise,
  before: Point,
  now: Point,
  missC: number | null,
  expectedVar: number,
): ProbeNoise {
  const stepC = Math.abs(now.tempC - before.tempC)
  const moved = stepC > 1e-9
  const up = now.tempC > before.tempC
  // Back and forth by a single step is what any probe does at a step's edge.
  const turned = stepC > 1.5 * noise.leastStepC && noise.wentUp !== null && up !== noise.wentUp
  const telling = moved && stepC <= COARSEST_C
  const seen =
    missC === null ? noise.variance : Math.min(missC ** 2, 9 * (noise.variance + expectedVar)) - expectedVar
  const variance = noise.variance + LEARNING * (seen - noise.variance)
  return {
    leastStepC: telling ? Math.min(noise.leastStepC, stepC) : noise.leastStepC,
    steps: Math.min(ENOUGH_STEPS, noise.steps + (telling ? 1 : 0)),
    variance: Math.min(MOST_VARIANCE, Math.max(LEAST_VARIANCE, variance)),
    sameSinceMs: moved ? now.atMs : noise.sameSinceMs,
    lastRunMs: moved ? Math.min(LONGEST_RUN_MS, now.atMs - noise.sameSinceMs) : noise.lastRunMs,
    turnsMs: turned ? [...noise.turnsMs, now.atMs].slice(-3) : noise.turnsMs,
    wentUp: moved ? up : noise.wentUp,
    ...(moved ? longRun(noise, now.atMs) : { longRunMs: noise.longRunMs, longRunEndMs: noise.longRunEndMs }),
  }
}

/** The longest run of the last hour. */
function longRun(noise: ProbeNoise, atMs: number) {
  const runMs = atMs - noise.sameSinceMs
  const isOld = atMs - noise.longRunEndMs > HOUR_MS
  return runMs >= noise.longRunMs || isOld
    ? { longRunMs: runMs, longRunEndMs: atMs }
    : { longRunMs: noise.longRunMs, longRunEndMs: noise.longRunEndMs }
}

/** How fine the probe counts, °C; 0 until a few steps have told. */
export const quantumOf = (noise: ProbeNoise): number => (noise.steps < ENOUGH_STEPS ? 0 : noise.leastStepC)

/** How much a probe trembles besides its counting in steps, °C. */
export const tremblingOf = (noise: ProbeNoise): number =>
  Math.sqrt(Math.max(0, noise.variance - quantumOf(noise) ** 2 / 12))

/**
 * What its counting leaves in the end of a straight line through many readings, °C (standard deviation): less the more
 * the probe trembles, nothing at half a step; and less the more steps the line has passed, as a fitted staircase has it.
 * @param passedC how far the line rises or falls in all, °C
 */
export function countingErrorC(noise: ProbeNoise, passedC: number): number {
  const quantumC = quantumOf(noise)
  if (quantumC === 0) return 0
  const stillC = (quantumC / Math.sqrt(12)) * Math.max(0, 1 - tremblingOf(noise) / (quantumC / 2))
  return stillC / Math.max(1, passedC / quantumC)
}

/**
 * Variance to give one reading. A coarse probe repeats one value for minutes: its readings are not fresh
 * evidence each, so the part that comes of its counting (a twelfth of the step squared) weighs by the run.
 */
export function readingVariance(noise: ProbeNoise, periodMs: number): number {
  const perRun = Math.max(1, (2 * noise.lastRunMs) / periodMs - 1)
  return Math.max(noise.variance, (quantumOf(noise) ** 2 / 12) * perRun)
}

/** So far an estimate may wander about a bath that stands still, °C. */
export const trembleOf = (noise: ProbeNoise): number => Math.sqrt(noise.variance) + quantumOf(noise) / 2
