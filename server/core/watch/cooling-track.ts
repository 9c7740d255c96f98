import { type CoolingFit, fitCooling } from '../bath/cooling.ts'
import type { Point } from './hold-pieces.ts'
import type { PotState } from './pot-state.ts'

/** A cool-down as it goes: where it has been, the curve through that, and when it was cool enough. */
export interface CoolingTrack {
  /** `everyMs` apart; when there are too many every second one is dropped. */
  readonly points: readonly Point[]
  readonly everyMs: number
  readonly fit: CoolingFit | null
  readonly fittedMs: number | null
  /** The last estimate that was still too warm. */
  readonly warm: Point | null
  readonly reachedMs: number | null
}

const FIRST_EVERY_MS = 30_000
const MOST_POINTS = 480
const REFIT_MS = 5 * 60_000
/** A curve known for hours changes little: then after this share of its time. */
const REFIT_01 = 0.04

export const startCooling = (): CoolingTrack => ({
  points: [],
  everyMs: FIRST_EVERY_MS,
  fit: null,
  fittedMs: null,
  warm: null,
  reachedMs: null,
})

/** After one more estimate of a bath that cools. A curve is fitted every five minutes, later less often. */
export function noteCooling(track: CoolingTrack, point: Point, coolToC: number, pot: PotState): CoolingTrack {
  const warm = point.tempC > coolToC ? point : track.warm
  const last = track.points.at(-1)
  const due = last === undefined || point.atMs - last.atMs >= track.everyMs
  if (!due) return warm === track.warm ? track : { ...track, warm }
  const next = { ...track, ...thinned([...track.points, point], track.everyMs), warm }
  const startMs = next.points[0]!.atMs
  const refitMs = Math.max(REFIT_MS, REFIT_01 * (point.atMs - startMs))
  return point.atMs - (track.fittedMs ?? startMs) < refitMs ? next : fitted(next, point.atMs, pot)
}

function thinned(points: readonly Point[], everyMs: number) {
  if (points.length <= MOST_POINTS) return { points, everyMs }
  return { points: points.filter((_, i) => i % 2 === 0), everyMs: everyMs * 2 }
}

/** The curve through all that has been seen. The pot's own surroundings and lid are what is expected of it. */
export function fitted(track: CoolingTrack, atMs: number, pot: PotState): CoolingTrack {
  const fit = fitCooling(track.points, { vessel: pot.setup.vessel, lid: pot.lid })
  return { ...track, fit, fittedMs: atMs }
}

/** When the straight line from the last estimate that was too warm passed the target. */
export function passedMs(warm: Point | null, now: Point, coolToC: number): number {
  if (warm === null || warm.tempC <= now.tempC) return now.atMs
  const part = (warm.tempC - coolToC) / (warm.tempC - now.tempC)
  return Math.round(warm.atMs + Math.min(1, part) * (now.atMs - warm.atMs))
}
