import { type CoolingFit, type CoolingPrior, fitCooling } from '../bath/cooling.ts'
import type { Course } from './course.ts'
import type { Point } from './hold-pieces.ts'
import { type RestBelow, heldRest } from './rest-below.ts'
import type { PotSetup } from './stove-input.ts'

/** A cool-down as it goes: where it has been, the curve through that, and when it was cool enough. */
export interface CoolingTrack {
  /** `everyMs` apart; when there are too many every second one is dropped. */
  readonly points: readonly Point[]
  readonly everyMs: number
  /** What the curve is fitted to. */
  readonly basis: CurveBasis | null
  readonly fittedMs: number | null
  /** It comes to rest just below, as no bath does without heat. */
  readonly rest: RestBelow | null
  /** The last estimate that was still too warm. */
  readonly warm: Point | null
  readonly reachedMs: number | null
}

/** The points up to the last fit, and what was known of the pot by then. */
interface CurveBasis extends Pick<CoolingPrior, 'vessel' | 'belief' | 'lid'> {
  readonly points: readonly Point[]
}

/** What is known of the pot that cools. */
interface CoolingPot {
  readonly setup: Pick<PotSetup, 'vessel' | 'belief'>
  readonly lid: 'on' | 'off' | null
  /** When the lid was last noted; `null`: never. */
  readonly lidMs: number | null
  readonly course: Pick<Course, 'smoothSinceMs'>
}

const FIRST_EVERY_MS = 30_000
const MOST_POINTS = 480
/** A plate and a pot's base go on giving heat this long after the burner was turned off. */
export const COAST_MS = 20 * 60_000
const REFIT_MS = 5 * 60_000
/** A curve known for hours changes little: then after this share of its time. */
const REFIT_01 = 0.04

export const startCooling = (): CoolingTrack => ({
  points: [],
  everyMs: FIRST_EVERY_MS,
  basis: null,
  fittedMs: null,
  rest: null,
  warm: null,
  reachedMs: null,
})

/**
 * After one more estimate of a bath that cools. The curve goes by new points every five minutes, later less often.
 * @param stepC how fine the probe counts, °C
 */
export function noteCooling(
  track: CoolingTrack,
  point: Point,
  coolToC: number,
  pot: CoolingPot,
  stepC: number,
): CoolingTrack {
  const warm = point.tempC > coolToC ? point : track.warm
  const last = track.points.at(-1)
  const due = last === undefined || point.atMs - last.atMs >= track.everyMs
  if (!due) return warm === track.warm ? track : { ...track, warm }
  const kept = thinned([...track.points, point], track.everyMs)
  const startMs = kept.points[0]!.atMs
  const undisturbedMs = Math.max(startMs + COAST_MS, pot.course.smoothSinceMs, pot.lidMs ?? 0)
  const next = { ...track, ...kept, warm, rest: heldRest(track.rest, kept.points, undisturbedMs, stepC) }
  const refitMs = Math.max(REFIT_MS, REFIT_01 * (point.atMs - startMs))
  return point.atMs - (track.fittedMs ?? startMs) < refitMs ? next : fitted(next, point.atMs, pot)
}

function thinned(points: readonly Point[], everyMs: number) {
  if (points.length <= MOST_POINTS) return { points, everyMs }
  return { points: points.filter((_, i) => i % 2 === 0), everyMs: everyMs * 2 }
}

/** The curve is to go through all that has been seen. What is expected of it is the pot's lid and surroundings, and what its earlier cool-downs have taught. */
export function fitted(track: CoolingTrack, atMs: number, pot: CoolingPot): CoolingTrack {
  const { vessel, belief } = pot.setup
  const basis = { points: track.points, vessel, lid: pot.lid, ...(belief === undefined ? {} : { belief }) }
  return { ...track, basis, fittedMs: atMs }
}

/** A basis never changes, so its curve is worked out once, and only when somebody asks: a folded day asks for few. */
const worked = new WeakMap<CurveBasis, CoolingFit | null>()

/** The curve of a cool-down as last fitted; `null` before that, and where there is none. */
export function curveOf({ basis }: CoolingTrack): CoolingFit | null {
  if (basis === null) return null
  const known = worked.get(basis)
  if (known !== undefined) return known
  const fit = fitCooling(basis.points, basis)
  worked.set(basis, fit)
  return fit
}

/** When the straight line from the last estimate that was too warm passed the target. */
export function passedMs(warm: Point | null, now: Point, coolToC: number): number {
  if (warm === null || warm.tempC <= now.tempC) return now.atMs
  const part = (warm.tempC - coolToC) / (warm.tempC - now.tempC)
  return Math.round(warm.atMs + Math.min(1, part) * (now.atMs - warm.atMs))
}
