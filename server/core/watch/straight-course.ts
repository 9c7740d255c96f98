import type { Course } from './course.ts'
import type { Point } from './hold-pieces.ts'
import { type ProbeNoise, quantumOf, tremblingOf } from './probe-noise.ts'

/** The straight line on which the latest readings lie. */
export interface StraightCourse {
  /** Where it ends, at the latest readings; one standard deviation of that, the probe's counting apart. */
  readonly endMs: number
  readonly levelC: number
  readonly levelSpreadC: number
  readonly rateCPerMin: number
  /** One standard deviation of the rate. */
  readonly spreadCPerMin: number
  readonly spanMs: number
  /** The latest readings of it keep up with it, as far as they can tell. */
  readonly goesOn: boolean
}

/** Two slopes of one line lie this many standard deviations apart at the most (our choice). */
const APART = 2.5
/** Readings nearer to each other than this tremble together: convection and the probe's lag. */
const TOGETHER_MS = 5000
/** Where heat goes in warm water rises in plumes past the probe: a rate seen for less than this may be one. */
const PLUME_MS = 20_000
const PLUME_01 = 0.2
const LEAST_SIGMA_C = 0.02
/** A slope read off steps of a coarse probe is wrong by this share of a step over the span (uniform phase). */
const STEP_01 = 0.4
/** A slope over less than so many steps may be one step alone, of a bath that stands at its edge. */
const ONE_STEP = 1.6
const MOST_STEPS = 1.2
/** What came last goes on when it has half of the rate, within so many standard deviations of its own. */
const LATEST_MS = 20_000
const GOES_ON_01 = 0.5
const GOES_ON_SIGMAS = 1.5
const LEAST_SPAN_MS = 5000
/** Each part looked at is longer than the last by this share. */
const LONGER_01 = 0.15

/**
 * The course of the bath now: the slope over the longest time up to the last reading in which no shorter, later
 * part says otherwise (the rule of intersecting confidence intervals of Goldenshluger and Nemirovski, 1997). It
 * reaches back over an hour of a steady drift, and over half a minute when the bath has just turned.
 * `null` until readings have run on for some seconds without a step.
 */
export function straightCourse(course: Course, noise: ProbeNoise): StraightCourse | null {
  const known = worked.get(course)
  if (known !== undefined) return known
  const line = longestStraight(course, noise)
  const { open } = course.means
  const found = line === null || open === null ? null : withinStep(line, noise, open)
  worked.set(course, found)
  return found
}

/** A course never changes, and several rules ask for its line at each tick. */
const worked = new WeakMap<Course, StraightCourse | null>()

function longestStraight({ means, smoothSinceMs }: Course, noise: ProbeNoise): StraightCourse | null {
  const { old, closed, open } = means
  if (open === null) return null
  const sums = { n: 0, weight: 0, x: 0, y: 0, xx: 0, xy: 0 }
  let found: Slope | null = null
  let latest: Slope | null = null
  let [low, high] = [-Infinity, Infinity]
  let dueMs = LEAST_SPAN_MS
  const before = old.length
  for (let i = before + closed.length; i >= 0; i--) {
    const mean = i === before + closed.length ? open : i >= before ? closed[i - before]! : old[i]!
    if (mean.atMs < smoothSinceMs) break
    add(sums, (mean.atMs - open.atMs) / 60_000, mean.tempC - open.tempC, mean.count)
    const spanMs = open.atMs - mean.atMs
    if (spanMs < dueMs) continue
    const next = slopeOf(sums, spanMs, noise)
    low = Math.max(low, next.rateCPerMin - APART * next.spreadCPerMin)
    high = Math.min(high, next.rateCPerMin + APART * next.spreadCPerMin)
    if (low > high) break
    found = next
    if (spanMs <= LATEST_MS || latest === null) latest = next
    dueMs = (1 + LONGER_01) * spanMs
  }
  if (found === null || latest === null) return null
  const endMs = open.atMs
  return { ...found, endMs, levelC: open.tempC + found.levelC, goesOn: keepsUp(latest, found.rateCPerMin) }
}

const keepsUp = (latest: Slope, rateCPerMin: number): boolean =>
  Math.sign(rateCPerMin) * latest.rateCPerMin >=
  GOES_ON_01 * Math.abs(rateCPerMin) - GOES_ON_SIGMAS * latest.spreadCPerMin

/**
 * While a reading stays the same the bath moves by one step of the probe at the most, and a little; a line that asks
 * for more is over.
 */
function withinStep(line: StraightCourse, noise: ProbeNoise, { atMs, tempC }: Point): StraightCourse {
  const spanMs = atMs - noise.sameSinceMs
  const quantumC = quantumOf(noise)
  if (spanMs < LATEST_MS || quantumC === 0) return line
  const mostCPerMin = (MOST_STEPS * quantumC + 2 * tremblingOf(noise)) / (spanMs / 60_000)
  if (Math.abs(line.rateCPerMin) <= mostCPerMin) return line
  const half = mostCPerMin / 2
  const rateCPerMin = Math.sign(line.rateCPerMin) * half
  return {
    rateCPerMin,
    spreadCPerMin: half,
    endMs: atMs,
    levelC: tempC,
    levelSpreadC: 0,
    spanMs,
    goesOn: false,
  }
}

type Slope = Omit<StraightCourse, 'endMs' | 'goesOn'>

interface Sums {
  n: number
  weight: number
  x: number
  y: number
  xx: number
  xy: number
}

function add(sums: Sums, x: number, y: number, weight: number): void {
  sums.n += 1
  sums.weight += weight
  sums.x += weight * x
  sums.y += weight * y
  sums.xx += weight * x * x
  sums.xy += weight * x * y
}

function slopeOf({ weight, x, y, xx, xy }: Sums, spanMs: number, noise: ProbeNoise): Slope {
  const spreadX = xx - (x * x) / weight
  const rateCPerMin = (xy - (x * y) / weight) / spreadX
  const free = Math.min(weight, 1 + spanMs / TOGETHER_MS)
  const sigmaC = Math.max(LEAST_SIGMA_C, Math.sqrt(noise.variance))
  const trembling = sigmaC / Math.sqrt((spreadX / weight) * free)
  const stepping = steppingCPerMin(Math.abs(rateCPerMin), spanMs / 60_000, noise)
  const plumes = PLUME_01 * Math.abs(rateCPerMin) * Math.min(1, PLUME_MS / spanMs)
  const meanX = x / weight
  return {
    rateCPerMin,
    spreadCPerMin: Math.hypot(trembling, stepping, plumes),
    levelC: y / weight - rateCPerMin * meanX,
    levelSpreadC: Math.hypot(sigmaC / Math.sqrt(free), trembling * meanX),
    spanMs,
  }
}

/** What counting in steps leaves open of a slope; a probe that trembles by half a step counts as if there were none. */
function steppingCPerMin(rateCPerMin: number, spanMin: number, noise: ProbeNoise): number {
  const quantumC = quantumOf(noise)
  if (quantumC === 0) return 0
  const still01 = Math.max(0, 1 - tremblingOf(noise) / (quantumC / 2))
  const isOneStep = rateCPerMin * spanMin < ONE_STEP * quantumC
  return still01 * Math.max((STEP_01 * quantumC) / spanMin, isOneStep ? rateCPerMin / APART : 0)
}
