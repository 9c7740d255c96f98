import type { PotReading } from './pot-reading.ts'
import { DRIFT_MS, PEAK_MS, type ToldClaim } from './told-claim.ts'

/** What is known of a stage once it has ended, in time order. */
export interface SeenStage {
  /** Believable ones of the stage. */
  readonly readings: readonly PotReading[]
  /** When dial or lid changed, goods went in or out, or water was poured. */
  readonly touchedMs: readonly number[]
  readonly endedMs: number
  readonly windowC: readonly [low: number, high: number] | null
  readonly coolToC: number | null
}

const MIN_MS = 60_000
/** A peak is past once the bath has fallen by this from it, °C. */
const FALLEN_C = 0.2
/** A touch in the last part of the way no longer decides when the bath gets there. */
const LAST_01 = 0.1
/** One trembling reading is no peak: means of so many count. */
const RUNNING = 5

/**
 * What came of a claim: of its own kind and unit. `null`: it can't be judged, as somebody touched the pot or the stage
 * ended before it came. A time that is past its range without the bath being there counts with the last moment seen.
 */
export function whatCame(claim: ToldClaim, seen: SeenStage): number | null {
  const untilMs = Math.min(seen.touchedMs.find((ms) => ms > claim.madeMs) ?? Infinity, seen.endedMs)
  switch (claim.kind) {
    case 'window':
      return timeOf(claim, seen, untilMs, (tempC) => tempC >= (seen.windowC?.[0] ?? Infinity))
    case 'leaves': {
      const [lowC, highC] = seen.windowC ?? [-Infinity, Infinity]
      return timeOf(claim, seen, untilMs, (tempC) => tempC < lowC || tempC > highC)
    }
    case 'cool':
      return timeOf(claim, seen, untilMs, (tempC) => tempC <= (seen.coolToC ?? -Infinity))
    case 'peak':
      return peakOf(claim, seen, untilMs)
    case 'drift':
      return driftOf(claim, seen, untilMs)
    default:
      return claim.kind satisfies never
  }
}

/** Three readings running, so that one stray reading is no arrival. */
function timeOf(
  claim: ToldClaim,
  { readings }: SeenStage,
  untilMs: number,
  isThere: (tempC: number) => boolean,
): number | null {
  const after = readings.filter((r) => r.atMs > claim.madeMs)
  const first = after.findIndex((_, i) => after.slice(i, i + 3).every((r) => isThere(r.tempC)))
  const cameMs = after[first]?.atMs
  if (cameMs !== undefined && cameMs - untilMs <= LAST_01 * (cameMs - claim.madeMs)) return cameMs
  return untilMs > claim.high90 ? untilMs : null
}

function peakOf({ madeMs }: ToldClaim, { readings }: SeenStage, untilMs: number): number | null {
  const after = readings.filter((r) => r.atMs >= madeMs && r.atMs <= Math.min(untilMs, madeMs + PEAK_MS))
  const means = after
    .slice(RUNNING - 1)
    .map((_, i) => after.slice(i, i + RUNNING).reduce((sum, r) => sum + r.tempC, 0) / RUNNING)
  if (means.length === 0) return null
  const peakC = Math.max(...means)
  const isPast = untilMs >= madeMs + PEAK_MS || means.at(-1)! <= peakC - FALLEN_C
  return isPast ? peakC : null
}

function driftOf({ madeMs }: ToldClaim, { readings }: SeenStage, untilMs: number): number | null {
  const atMs = madeMs + DRIFT_MS
  const near = readings.filter((r) => Math.abs(r.atMs - atMs) <= MIN_MS)
  if (untilMs < atMs || near.length === 0) return null
  return near.reduce((sum, r) => sum + r.tempC, 0) / near.length
}
