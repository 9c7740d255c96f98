import type { Reading } from '../measure/reading.ts'
import { type Estimate, restartEstimate, startEstimate, stepEstimate } from './estimate.ts'
import type { Point } from './hold-pieces.ts'
import { learnLag } from './learn-lag.ts'
import { fallBegan, isBathLike, isHotLiquor, isSettled } from './out-of-bath.ts'
import { quantumOf } from './probe-noise.ts'

/** What is known of one probe in a pot. */
export interface ProbeSense {
  readonly probe: string
  readonly assignedMs: number
  /** Time constant as set; `null`: not told. */
  readonly toldLagS: number | null
  readonly learnedLagS: number | null
  readonly estimate: Estimate | null
  /** The last believed reading, wherever the probe hung. */
  readonly last: Point | null
  readonly periodMs: number | null
  /** Believed readings of the last 45 s, a second apart or more, and at least the last three. */
  readonly recent: readonly Point[]
  readonly place: Place
  /** Until then a change of level is expected: the probe is being moved, or a new bath begins. */
  readonly excusedUntilMs: number
  /** Goods, a stir or water are noted as coming in until then. */
  readonly disturbedUntilMs: number
  readonly faultsInRow: number
  readonly faultSinceMs: number | null
}

export type Place =
  | { readonly kind: 'in' }
  | {
      readonly kind: 'out'
      readonly sinceMs: number
      readonly bathC: number
      /** Readings since the lowest one, for the probe's answer when it goes back in. */
      readonly rise: readonly Point[]
    }
  /** It came from another pot and still shows what that was. */
  | { readonly kind: 'settling'; readonly sinceMs: number }

export type PlaceChange =
  | { readonly kind: 'out'; readonly sinceMs: number }
  | { readonly kind: 'back' }
  | { readonly kind: 'settled' }
  | null

const IN: Place = { kind: 'in' }
const RECENT_MS = 45_000
const RISE_AT_MOST = 90
/** By then any probe shows the bath that it hangs in. */
const SETTLED_BY_MS = 120_000

/** A probe comes into a pot; `moved`: out of another one. */
export const startSense = (
  probe: string,
  atMs: number,
  toldLagS: number | null,
  moved: boolean,
): ProbeSense => ({
  probe,
  assignedMs: atMs,
  toldLagS,
  learnedLagS: null,
  estimate: null,
  last: null,
  periodMs: null,
  recent: [],
  place: moved ? { kind: 'settling', sinceMs: atMs } : IN,
  excusedUntilMs: atMs,
  disturbedUntilMs: atMs,
  faultsInRow: 0,
  faultSinceMs: null,
})

/** A probe whose lag is neither told nor learned is taken as it reads. */
export const lagOf = (sense: ProbeSense): number => sense.toldLagS ?? sense.learnedLagS ?? 0

/** After one more sample. `change` says that the probe left the bath (found late, begun earlier) or is back. */
export function senseReading(
  sense: ProbeSense,
  reading: Reading,
): { readonly sense: ProbeSense; readonly change: PlaceChange } {
  if (reading.kind === 'fault' || reading.verdict === 'start-up')
    return { sense: withFault(sense, reading.atMs), change: null }
  const tooLate = sense.last !== null && reading.atMs <= sense.last.atMs
  if (reading.verdict !== 'good' || tooLate) return { sense, change: null }
  const point = { atMs: reading.atMs, tempC: reading.tempC }
  const heard = withPoint(sense, point)
  switch (heard.place.kind) {
    case 'in':
      return whileIn(heard, point)
    case 'out':
      return whileOut(heard, heard.place, point)
    case 'settling':
      return whileSettling(heard, heard.place.sinceMs, point)
    default:
      return heard.place satisfies never
  }
}

const withFault = (sense: ProbeSense, atMs: number): ProbeSense => ({
  ...sense,
  faultsInRow: sense.faultsInRow + 1,
  faultSinceMs: sense.faultSinceMs ?? atMs,
})

function withPoint(sense: ProbeSense, point: Point): ProbeSense {
  const { last, recent } = sense
  const dtMs = last === null ? null : point.atMs - last.atMs
  const tight = recent.length > 0 && point.atMs - recent.at(-1)!.atMs < 700
  const firstKept = recent.findIndex((p) => p.atMs >= point.atMs - RECENT_MS)
  const from = Math.max(0, Math.min(firstKept < 0 ? recent.length : firstKept, recent.length - 2))
  return {
    ...sense,
    last: point,
    periodMs: nextPeriod(sense.periodMs, dtMs),
    recent: tight ? recent : recentWith(recent, from, point),
    faultsInRow: 0,
    faultSinceMs: null,
  }
}

function recentWith(recent: readonly Point[], from: number, point: Point): readonly Point[] {
  const next = recent.slice(from)
  next.push(point)
  return next
}

function nextPeriod(periodMs: number | null, dtMs: number | null): number | null {
  if (dtMs === null) return periodMs
  if (periodMs === null) return dtMs
  return dtMs > 3 * periodMs ? periodMs : periodMs + 0.2 * (dtMs - periodMs)
}

function whileIn(sense: ProbeSense, point: Point): { sense: ProbeSense; change: PlaceChange } {
  const { estimate } = sense
  const quantumC = estimate === null ? 0 : quantumOf(estimate.noise)
  const excused = point.atMs < sense.excusedUntilMs
  const sinceMs = excused ? null : fallBegan(sense.recent, quantumC, point.atMs < sense.disturbedUntilMs)
  if (sinceMs === null || estimate === null) {
    const next = estimate === null ? startEstimate(point) : stepEstimate(estimate, point)
    return { sense: { ...sense, estimate: next }, change: null }
  }
  const bathC = sense.recent.find((p) => p.atMs === sinceMs)?.tempC ?? estimate.x.levelC
  const place = { kind: 'out', sinceMs, bathC, rise: [point] } as const
  return { sense: { ...sense, place }, change: { kind: 'out', sinceMs } }
}

function whileOut(
  sense: ProbeSense,
  place: Extract<Place, { kind: 'out' }>,
  point: Point,
): { sense: ProbeSense; change: PlaceChange } {
  const quantumC = sense.estimate === null ? 0 : quantumOf(sense.estimate.noise)
  const lower = point.tempC <= place.rise[0]!.tempC
  const rise = lower ? [point] : [...place.rise, point].slice(-RISE_AT_MOST)
  const afterMs = point.atMs - place.sinceMs
  const home = isBathLike(point.tempC, place.bathC, afterMs) || isHotLiquor(point.tempC, place.bathC)
  const excused = point.atMs < sense.excusedUntilMs
  if (!isSettled(sense.recent, quantumC) || !(home || excused))
    return { sense: { ...sense, place: { ...place, rise } }, change: null }
  const learnedLagS = learnLag(rise) ?? sense.learnedLagS
  const estimate = sense.estimate === null ? startEstimate(point) : restartEstimate(sense.estimate, point)
  const back = { ...sense, place: IN, recent: [point], learnedLagS, estimate }
  return { sense: back, change: { kind: 'back' } }
}

function whileSettling(
  sense: ProbeSense,
  sinceMs: number,
  point: Point,
): { sense: ProbeSense; change: PlaceChange } {
  if (!isSettled(sense.recent, 0) && point.atMs - sinceMs < SETTLED_BY_MS) return { sense, change: null }
  const settled = { ...sense, place: IN, recent: [point], estimate: startEstimate(point) }
  return { sense: settled, change: { kind: 'settled' } }
}

/** The probe is moved, or a new bath begins: whatever it reads next is that bath. */
export const excuse = (sense: ProbeSense, untilMs: number): ProbeSense => ({
  ...sense,
  excusedUntilMs: untilMs,
})

export const disturb = (sense: ProbeSense, untilMs: number): ProbeSense => ({
  ...sense,
  disturbedUntilMs: untilMs,
})

export const toldLag = (sense: ProbeSense, toldLagS: number | null): ProbeSense => ({ ...sense, toldLagS })
