import { pastBound } from '../past-bound.ts'
import { mayHead } from './first-rise.ts'
import { isPastBoil } from './near-boil.ts'
import { rateBefore } from '../course.ts'
import { learnedMinutes } from '../learned-pot.ts'
import type { PotView } from '../pot-view.ts'
import type { Finding } from '../standing.ts'
import { type StraightCourse, straightCourse } from '../straight-course.ts'

/** Slower than this is standing still as far as ten minutes go, °C/min. */
const STILL_C_PER_MIN = 0.015
/** A bath rises when its rate lies this many standard deviations over nothing (our choice). */
const SURELY = 3
/** A rate that was this much higher before is on its way down. */
const FALLS_OFF_01 = 1.1

/** Where the bath is going, as far as a limit above it is concerned. */
export interface Way {
  /** Minutes until it passes the limit; `Infinity`: it does not. */
  readonly min: number
  /** The soonest that the readings leave room for. */
  readonly leastMin: number
  /** The readings of late leave no doubt that it rises. */
  readonly rises: boolean
}

/**
 * The way to a limit above the bath at its present course; `null`: nothing can be said. A course that flattens out
 * is followed as it flattens: a bath that coasts into its window after the burner was turned down isn't leaving it.
 */
function wayTo(view: PotView, limitC: number): Way | null {
  const { tempC, probe, course } = view
  const straight = probe?.estimate ? straightCourse(course, probe.estimate.noise) : null
  if (tempC === null || straight === null) return null
  const { rateCPerMin: rate, spreadCPerMin, goesOn } = straight
  // An estimate may swing over the limit before it is sure that the bath is.
  const leftC = Math.max(0, limitC - tempC)
  const leastMin = along(rate + spreadCPerMin, leftC)
  if (rate <= STILL_C_PER_MIN) return { min: Infinity, leastMin, rises: false }
  return {
    min: minutesAlong(view, straight, leftC),
    leastMin,
    rises: goesOn && rate > SURELY * spreadCPerMin,
  }
}

const along = (rateCPerMin: number, leftC: number): number =>
  rateCPerMin <= STILL_C_PER_MIN ? Infinity : leftC / rateCPerMin

/** The same for a pot that was learned: with dial and lid as noted, also while its element still warms up or cools. */
export function wayForeseen(view: PotView, limitC: number): Way | null {
  const way = wayTo(view, limitC)
  if (way === null || way.min === Infinity) return way
  const learned = learnedMinutes(view, limitC, FORESEEN_MIN)
  if (learned === undefined) return way
  const min = learned ?? Infinity
  return { ...way, min, leastMin: min }
}

/** No rule looks further ahead, minutes. */
const FORESEEN_MIN = 15

/** For a limit that must not be passed: the sooner of both, so that nothing learned can quiet it. */
export function soonestWay(view: PotView, limitC: number): Way | null {
  const [way, foreseen] = [wayTo(view, limitC), wayForeseen(view, limitC)]
  return way === null || foreseen === null
    ? way
    : {
        ...way,
        min: Math.min(way.min, foreseen.min),
        leastMin: Math.min(way.leastMin, foreseen.leastMin),
      }
}

function minutesAlong({ course, atMs }: PotView, straight: StraightCourse, leftC: number): number {
  const { rateCPerMin: rate, spreadCPerMin, spanMs } = straight
  const before = rateBefore(course, atMs, spanMs, spanMs)
  const falls = before !== null && before > FALLS_OFF_01 * rate + spreadCPerMin
  return falls ? flattening(rate, before, leftC, spanMs / 60_000) : leftC / rate
}

/** The rate falls by the same share every `spanMin`; both rates are those of the middle of their spans. */
function flattening(rate: number, before: number, leftC: number, spanMin: number): number {
  const fallMin = spanMin / Math.log(before / rate)
  const nowRate = rate * Math.exp(-spanMin / 2 / fallMin)
  const part = leftC / (nowRate * fallMin)
  return part >= 1 ? Infinity : -fallMin * Math.log(1 - part)
}

/** By then a burner that was turned up shows what it does. */
const SHOWS_MS = 6 * 60_000

/**
 * A finding of a bath that heads past its limit. Where the dial was noted as turned up shortly before, it has been
 * heading there since then: the cause is known, and the readings need not prove it for the whole of the on-delay.
 */
export function heading({ atMs, pot }: PotView, limitC: number, min: number): Finding {
  const raisedMs = pot.dial?.raisedMs ?? null
  const isFresh = raisedMs !== null && atMs - raisedMs <= SHOWS_MS
  const cause = isFresh ? { sinceMs: raisedMs, reason: 'burner-up' as const } : {}
  return { is: 'on', limitC, expectedMs: Math.round(atMs + min * 60_000), ...cause }
}

/** A bath heads for a limit while it is not past it, if water gets there at all and it matters now. */
export const canHead = (view: PotView, limitC: number): boolean =>
  pastBound(view, limitC, 1) === null && !isPastBoil(view, limitC) && mayHead(view)
