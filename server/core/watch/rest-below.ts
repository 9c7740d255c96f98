import type { Point } from './hold-pieces.ts'

/** Where a falling curve comes to rest, going by its own bend alone. */
export interface RestBelow {
  /** How far below the bath, °C; `mostC`: at the very most (three standard deviations). */
  readonly belowC: number
  readonly mostC: number
  /** The bath at the end, °C, and how it fell of late, below 0. */
  readonly endC: number
  readonly rateCPerMin: number
  /** Seen since then. */
  readonly fromMs: number
}

/**
 * A hot bath without heat comes to rest further below than this, °C. A loss that goes with the difference to the room
 * ends at the room, 25 °C and more below; one that goes with the vapour pressure of water shrinks by a factor e in 20
 * to 26 °C (Magnus' formula between 50 and 90 °C).
 */
const WITHOUT_HEAT_C = 10
const HOT_C = 50
/** It falls faster than its curve bends: the heat is off again. */
const FASTER_01 = 1.2
const OF_LATE_MS = 10 * 60_000
/** Three of them make a curve: what is quick shows in the short ones, what is slow only in the long ones. */
const SPANS_MIN = [20, 30, 45, 60]

/** Readings of this long make the level at an edge of a span. */
const EDGE_MS = 4 * 60_000
/** What a mean of some minutes leaves open, °C, and draughts in the fall of a span, as a share (orders of magnitude). */
const EDGE_SIGMA_C = 0.015
const SWAY_01 = 0.02
const SIGMAS = 3
/** An exponential falls by the same share from span to span; so much more or less is let pass (our choice). */
const UNEVEN_01 = 0.08

/**
 * A hot bath that comes to rest just below, as none does without heat; `null`: none of that is to be seen. Once seen
 * beyond doubt it stands, for a bath that has come to rest has no bend left to tell; until the bath falls faster or further.
 */
export function heldRest(
  held: RestBelow | null,
  points: readonly Point[],
  fromMs: number,
  stepC: number,
): RestBelow | null {
  const found = restBelow(points, fromMs, stepC)
  const isSure = found !== null && found.endC >= HOT_C && found.mostC < WITHOUT_HEAT_C
  const rest = isSure ? found : held
  return rest !== null && isStill(rest, points) ? rest : null
}

function isStill(rest: RestBelow, points: readonly Point[]): boolean {
  const endMs = points.at(-1)?.atMs ?? -Infinity
  const [before, now] = [levelAt(points, endMs - OF_LATE_MS), levelAt(points, endMs)]
  if (before === null || now === null) return true
  const rateCPerMin = (now - before) / (OF_LATE_MS / 60_000)
  return now >= rest.endC - rest.mostC && rateCPerMin >= FASTER_01 * rest.rateCPerMin
}

/**
 * Where a falling curve comes to rest, from how much less it falls in each of three spans up to the last point: a fall
 * that shrinks by the same share every time ends a geometric series below. The surest of several lengths; `null`: not
 * seen for long enough, or no such curve. A lid put on makes one fall smaller, and not each by the same share.
 * @param fromMs nothing before it counts   @param stepC how fine the probe counts, °C
 */
export function restBelow(points: readonly Point[], fromMs: number, stepC: number): RestBelow | null {
  let surest: RestBelow | null = null
  for (const minutes of SPANS_MIN) {
    const rest = overSpans(points, minutes * 60_000, fromMs, stepC)
    if (rest !== null && rest.mostC < (surest?.mostC ?? Infinity)) surest = rest
  }
  return surest
}

function overSpans(
  points: readonly Point[],
  spanMs: number,
  fromMs: number,
  stepC: number,
): RestBelow | null {
  const endMs = points.at(-1)?.atMs ?? -Infinity
  const startMs = endMs - 3 * spanMs
  if (startMs - EDGE_MS < fromMs) return null
  const levels = [3, 2, 1, 0.5, 0].map((spans) => levelAt(points, endMs - spans * spanMs))
  const [first, second, third, half, last] = levels
  if (first == null || second == null || third == null || half == null || last == null) return null
  const sigmaC = Math.SQRT2 * Math.hypot(EDGE_SIGMA_C, stepC / 2)
  const before = share(first - second, second - third, sigmaC)
  const shrinks = share(second - third, third - last, sigmaC)
  const within = share(third - half, half - last, sigmaC)
  if (before === null || shrinks === null || within === null) return null
  if (!isAlike(before.of1, shrinks.of1) || !isAlike(Math.sqrt(shrinks.of1), within.of1)) return null
  const fallC = third - last
  return {
    belowC: sumBelow(fallC, shrinks.of1),
    mostC: sumBelow(fallC, shrinks.of1 + SIGMAS * shrinks.sigma),
    endC: last,
    rateCPerMin: -fallC / (spanMs / 60_000),
    fromMs: startMs,
  }
}

/** The mean of the minutes up to a moment. */
function levelAt(points: readonly Point[], atMs: number): number | null {
  let [count, sumC] = [0, 0]
  for (let i = points.length - 1; i >= 0 && points[i]!.atMs >= atMs - EDGE_MS; i--) {
    if (points[i]!.atMs > atMs) continue
    count += 1
    sumC += points[i]!.tempC
  }
  return count === 0 ? null : sumC / count
}

interface Share {
  readonly of1: number
  readonly sigma: number
}

/** What a fall is of the one before it; `null` where there is none to speak of. */
function share(beforeC: number, nowC: number, sigmaC: number): Share | null {
  if (beforeC <= SIGMAS * sigmaC || nowC <= 0) return null
  const of1 = nowC / beforeC
  return { of1, sigma: Math.hypot(sigmaC / beforeC, (of1 * sigmaC) / beforeC, of1 * SWAY_01 * Math.SQRT2) }
}

const isAlike = (a1: number, b1: number): boolean => Math.abs(a1 - b1) <= UNEVEN_01

/** The geometric series that follows a fall. */
const sumBelow = (fallC: number, of1: number): number => (of1 >= 1 ? Infinity : (fallC * of1) / (1 - of1))
