import { COAST_MS } from '../cooling-track.ts'
import { rateOver } from '../course.ts'
import type { Point } from '../hold-pieces.ts'
import { learnedFallCPerMin } from '../learned-pot.ts'
import type { PotView } from '../pot-view.ts'
import { quantumOf } from '../probe-noise.ts'
import type { Finding } from '../standing.ts'
import { type AlarmRule, BETWEEN, OFF, UNKNOWN } from './alarm-rule.ts'
import { isFalling, lastLowMs, steepestC } from './rising.ts'

/** So near to any room the room itself may warm the bath, °C; then it must climb by more than a room can. */
const ROOM_LIKE_C = 35
const ROOM_CLIMB_C_PER_MIN = 0.05
/** Far above any room a bath without heat loses more than this in half an hour, °C. */
const HOT_C = 50
const FLAT_C = 0.2
/** A fall of four minutes that can be told from a coarse probe's trembling, °C (our choice). */
const SURE_FALL_C = 0.2
/** The slowest fall that ends it, over a quarter of an hour, °C, and of late: over what would still count as flat. */
const SLOW_FALL_C = 0.15
const SLOW_FALL_C_PER_MIN = 0.012
const HALF_HOUR_MS = 30 * 60_000
/** A climb that needs no five minutes over the mark to be one: °C over the lowest, °C/min. */
const TURNED_C = 0.5
const TURNED_C_PER_MIN = 0.06
const MINUTE_MS = 60_000
const FIVE_MIN_MS = 5 * MINUTE_MS
/** A lid put on leaves about a third of the loss; less than this share of the earlier rate needs a burner. */
const STALLED = 0.12
const STALL_MS = 10 * 60_000

/**
 * In a cool-down: 1.0 °C over its lowest for five minutes, or a curve that can't be one without heat. A stir
 * gives one step and then falls on; a heavy plate coasts up and slows down; neither is a burner.
 */
export const notCooling: AlarmRule = {
  alarm: 'not-cooling',
  judge(view, { deadbandC }) {
    if (view.stage?.kind !== 'cool') return null
    const { tempC, pot } = view
    if (tempC === null) return UNKNOWN
    const lowest = pot.notes.lowest
    if (lowest !== null && isRising(view, tempC, lowest.tempC, deadbandC) && !isCoasting(view))
      return { is: 'on', limitC: lowest.tempC + deadbandC, reason: 'heat-on' }
    if (lowest !== null && hasTurned(view, tempC)) return heatSince(turnedMs(view, lowest))
    if (isHeldUp(view, tempC)) return heatSince(view.atMs - HALF_HOUR_MS)
    const rest = view.run?.cooling?.rest ?? null
    if (rest !== null) return heatSince(rest.fromMs)
    if (fallsAway(view)) return isFalling(view) ? OFF : BETWEEN
    return cannotBeCold(view, tempC) ?? BETWEEN
  },
}

function isRising(view: PotView, tempC: number, lowestC: number, riseC: number): boolean {
  const overC = tempC - lowestC
  if (overC < riseC) return false
  const steepC = steepestC(view.course, view.atMs - 12 * 60_000)
  if (steepC >= 0.8 && overC - steepC < riseC) return false
  return tempC > ROOM_LIKE_C || (rateOver(view.course, view.atMs, 10 * 60_000) ?? 0) >= ROOM_CLIMB_C_PER_MIN
}

/** Just turned off, not yet fallen, and slowing down. */
function isCoasting({ run, pot, atMs, rateCPerMin }: PotView): boolean {
  const { coastRateCPerMin, hasFallen } = pot.notes
  if (run === null || hasFallen || atMs - run.startedMs > COAST_MS) return false
  return rateCPerMin === null || coastRateCPerMin === null || rateCPerMin < 0.6 * coastRateCPerMin
}

/** It fell, and now it climbs steadily, far above any room and without a step: no bath does that by itself. */
function hasTurned({ pot, probe, course, atMs }: PotView, tempC: number): boolean {
  const { lowest, hasFallen } = pot.notes
  if (!hasFallen || lowest === null || tempC <= ROOM_LIKE_C) return false
  const quantumC = probe?.estimate ? quantumOf(probe.estimate.noise) : 0
  if (tempC - lowest.tempC < TURNED_C + quantumC) return false
  const steady = Math.min(
    rateOver(course, atMs, FIVE_MIN_MS) ?? 0,
    rateOver(course, atMs, FIVE_MIN_MS / 2) ?? 0,
  )
  return steady >= TURNED_C_PER_MIN && steepestC(course, atMs - 12 * 60_000) < 0.8 * (tempC - lowest.tempC)
}

/** When it turned: the lowest reading of a trembling probe may be minutes older. */
const turnedMs = ({ course, probe }: PotView, lowest: Point): number =>
  Math.max(lowest.atMs, lastLowMs(course.marks, lowest.tempC, probe) ?? lowest.atMs)

/**
 * It falls by so much that it is no trembling of a bath that stands still, nor a thermostat's pause: by 0.2 °C from
 * the first of five minutes to the last, or by 0.15 °C from five minutes to those a quarter of an hour later. Means
 * of whole minutes are held against each other.
 */
function fallsAway({ course, atMs }: PotView): boolean {
  if (fallenC(course.marks, atMs, MINUTE_MS, 4 * MINUTE_MS) >= SURE_FALL_C) return true
  const isSlow = (rateOver(course, atMs, STALL_MS) ?? 0) <= -SLOW_FALL_C_PER_MIN
  return isSlow && fallenC(course.minutes, atMs, FIVE_MIN_MS, 3 * FIVE_MIN_MS) >= SLOW_FALL_C
}

/** From the mean of a span to that of the span which ends now, so much later, °C; 0 where one was not seen. */
function fallenC(points: readonly Point[], atMs: number, spanMs: number, laterMs: number): number {
  const before = meanC(points, atMs - laterMs - spanMs, spanMs)
  const now = meanC(points, atMs - spanMs, spanMs)
  return before === null || now === null ? 0 : before - now
}

function meanC(points: readonly Point[], fromMs: number, spanMs: number): number | null {
  const temps = points.filter((p) => p.atMs >= fromMs && p.atMs < fromMs + spanMs).map((p) => p.tempC)
  return temps.length === 0 ? null : temps.reduce((sum, t) => sum + t, 0) / temps.length
}

/** Half an hour without a step, the coasting after the burner left out. */
const isLongSmooth = ({ run, course, atMs }: PotView): boolean =>
  run !== null &&
  atMs - run.startedMs >= HALF_HOUR_MS + 5 * 60_000 &&
  course.smoothSinceMs <= atMs - HALF_HOUR_MS

function cannotBeCold(view: PotView, tempC: number): Finding | null {
  const { course, atMs, probe } = view
  if (!isLongSmooth(view)) return null
  const from = course.minutes.findLast((p) => p.atMs <= atMs - HALF_HOUR_MS)
  if (tempC < HOT_C || from === undefined || from.tempC - tempC >= FLAT_C)
    return hasStalled(view) ? heatSince(atMs - STALL_MS) : null
  const span = course.minutes.filter((p) => p.atMs >= from.atMs)
  const lowestC = Math.min(...span.map((p) => p.tempC))
  const hasFallen = from.tempC - lowestC >= FLAT_C
  return heatSince(hasFallen ? (lastLowMs(span, lowestC, probe) ?? from.atMs) : atMs - HALF_HOUR_MS)
}

/** Slower than this share of what was learned of the pot, under its lid, and it is kept warm (our choice). */
const HELD_UP_01 = 0.35
/** A fall that half an hour shows beyond doubt, °C/min. */
const PLAIN_FALL_C_PER_MIN = 0.06

/** It falls, but by far less than this very pot does even with its lid on. */
function isHeldUp(view: PotView, tempC: number): boolean {
  if (tempC < HOT_C || !isLongSmooth(view)) return false
  const learned = learnedFallCPerMin(view, tempC)
  const [now, longer] = [STALL_MS, HALF_HOUR_MS].map((spanMs) => rateOver(view.course, view.atMs, spanMs))
  if (learned === null || learned < PLAIN_FALL_C_PER_MIN || now == null || longer == null) return false
  return Math.max(now, longer) > -HELD_UP_01 * learned
}

const heatSince = (sinceMs: number): Finding => ({
  is: 'on',
  limitC: null,
  sinceMs,
  isSure: true,
  reason: 'heat-on',
})

/** The last ten minutes fell by next to nothing where those before had the bath fall steadily. */
function hasStalled({ course, atMs }: PotView): boolean {
  const now = rateOver(course, atMs, STALL_MS)
  const earlier = course.minutes.filter((p) => p.atMs <= atMs - STALL_MS && p.atMs >= atMs - HALF_HOUR_MS)
  const [first, last] = [earlier[0], earlier.at(-1)]
  if (now === null || first === undefined || last === undefined) return false
  const before = ((last.tempC - first.tempC) / (last.atMs - first.atMs)) * 60_000
  return before <= -0.08 && now >= STALLED * before
}
