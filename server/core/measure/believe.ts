import { faultOf, foundText } from './possible.ts'
import type { Reading, Sample, Verdict } from './reading.ts'

/**
 * What is remembered of one probe to judge its next value. Samples that come late (older than the newest one
 * judged) are judged along a track of their own, so that a backlog and live readings never confuse each other.
 */
export interface BeliefState {
  readonly front: Track
  readonly late: Track
}

interface Track {
  /** The last value of any kind. */
  readonly lastAtMs: number | null
  readonly lastRawC: number | null
  /** The last value that was believed. */
  readonly goodAtMs: number | null
  readonly goodRawC: number | null
  /** A jump that the next value may confirm. */
  readonly suspectAtMs: number | null
  readonly suspectRawC: number | null
  /** Usual time between two values, ms; `null` until two have come. */
  readonly periodMs: number | null
}

const BLANK: Track = {
  lastAtMs: null,
  lastRawC: null,
  goodAtMs: null,
  goodRawC: null,
  suspectAtMs: null,
  suspectRawC: null,
  periodMs: null,
}

export const startBelief = (): BeliefState => ({ front: BLANK, late: BLANK })

/** °C that a common 12-bit chip shows before it has measured: register 0550h, its data sheet's table. */
const START_UP_C = 85

/** A one-wire chip measures within 0.75 s of being asked (data sheet); a board tries a few times. */
const STARTS_WITHIN_MS = 10_000

/** An all-zero answer of a dead bus passes its checksum and reads as exactly this, °C. */
const DEAD_BUS_C = 0

/**
 * Judges one sample of one probe, in the order of arrival. Pure and causal: the verdict hangs on nothing that
 * comes later, so the first value of a real jump is set aside and the second is believed.
 * @param correct raw °C → °C by the correction that holds at `atMs`
 */
export function believe(
  state: BeliefState,
  sample: Sample,
  correct: (rawC: number, atMs: number) => number,
): { readonly state: BeliefState; readonly reading: Reading } {
  const isLate = state.front.lastAtMs !== null && sample.atMs < state.front.lastAtMs
  const lane = isLate ? lateTrack(state.late, sample.atMs) : state.front
  const { track, reading } = judge(lane, sample, correct)
  const { front, late } = state
  return { state: isLate ? { front, late: track } : { front: track, late }, reading }
}

/** A backlog that starts over further back is a new one. */
const lateTrack = (late: Track, atMs: number): Track =>
  late.lastAtMs !== null && atMs < late.lastAtMs ? BLANK : late

function judge(track: Track, sample: Sample, correct: (rawC: number, atMs: number) => number) {
  const fault = faultReading(track, sample)
  if (fault !== null) return { track: afterFault(track, sample.atMs), reading: fault }
  const { probe, atMs, rawC } = sample as Extract<Sample, { kind: 'temp' }>
  const verdict = verdictOf(track, atMs, rawC)
  const reading: Reading = { kind: 'temp', probe, atMs, rawC, tempC: correct(rawC, atMs), verdict }
  return { track: afterValue(track, atMs, rawC, verdict), reading }
}

function faultReading(track: Track, sample: Sample): Extract<Reading, { kind: 'fault' }> | null {
  if (sample.kind === 'fault') return sample
  const fault = faultOf(sample.rawC) ?? (isDeadBus(track, sample.rawC) ? 'not-connected' : null)
  if (fault === null) return null
  const { probe, atMs, rawC } = sample
  return { kind: 'fault', probe, atMs, fault, found: foundText(String(rawC)) }
}

/** An exact zero is an ice bath only when the probe was seen on its way there: within 5 °C of the last good value. */
const isDeadBus = (track: Track, rawC: number): boolean =>
  rawC === DEAD_BUS_C && (track.goodRawC === null || Math.abs(track.goodRawC) > 5)

function verdictOf(track: Track, atMs: number, rawC: number): Verdict {
  if (track.lastAtMs === atMs && track.lastRawC !== null && track.lastRawC !== rawC) return 'second-value'
  if (rawC === START_UP_C && isStartUp(track, atMs)) return 'start-up'
  if (track.goodAtMs === null || track.goodRawC === null) return 'good'
  if (isSilence(track, atMs)) return 'good'
  if (agrees(track.goodRawC, track.goodAtMs, rawC, atMs)) return 'good'
  const { suspectRawC, suspectAtMs } = track
  if (suspectRawC === null || suspectAtMs === null) return 'jump'
  return agrees(suspectRawC, suspectAtMs, rawC, atMs) ? 'good' : 'jump'
}

/**
 * Exactly 85.000 with the neighbour before it far off: over 2 °C after a silence, a fault or another such
 * value, else also over what a pot can rise meanwhile, 4 °C/min (9 kW under 20 L gives 2.4: calculated, no
 * source). With no neighbour at all it is set aside too; the next value tells. When it alone has stood from the
 * first for longer than a chip takes to start, the bath is at 85.
 */
function isStartUp(track: Track, atMs: number): boolean {
  if (track.goodRawC === null || track.goodAtMs === null)
    return track.suspectRawC !== START_UP_C || atMs - (track.suspectAtMs ?? atMs) < STARTS_WITHIN_MS
  const isFresh = isSilence(track, atMs) || track.lastRawC === null || track.lastRawC === START_UP_C
  const riseC = isFresh ? 0 : ((atMs - track.goodAtMs) / 60_000) * 4
  return Math.abs(START_UP_C - track.goodRawC) > 2 + riseC
}

/** Nothing came for three periods (at least 10 s), or for a minute: then water may have changed by any amount. */
function isSilence(track: Track, atMs: number): boolean {
  if (track.lastAtMs === null) return true
  const gapMs = atMs - track.lastAtMs
  return gapMs > 60_000 || (track.periodMs !== null && gapMs > Math.max(3 * track.periodMs, 10_000))
}

/**
 * Could one probe show both? 4 °C at once (a step by goods or a stir) and 2.5 °C each second on top: a thin
 * sheath carried from the bench into the bath does about that (t90 of 9.8 s in water for 3 mm, sheath maker's
 * table); pulled out it falls by under 1 °C/s. A spike of broken data is larger.
 */
const agrees = (aC: number, aMs: number, bC: number, bMs: number): boolean =>
  Math.abs(bC - aC) <= 4 + 2.5 * (Math.max(0, bMs - aMs) / 1000)

function afterFault(track: Track, atMs: number): Track {
  return { ...track, lastAtMs: Math.max(atMs, track.lastAtMs ?? atMs), lastRawC: null }
}

function afterValue(track: Track, atMs: number, rawC: number, verdict: Verdict): Track {
  const last = { lastAtMs: atMs, lastRawC: rawC, periodMs: periodAfter(track, atMs) }
  switch (verdict) {
    case 'good':
      return goodTrack(atMs, rawC, last.periodMs)
    case 'jump':
      return { ...track, ...last, suspectAtMs: atMs, suspectRawC: rawC }
    case 'second-value':
      return track
    case 'start-up': {
      const isFirst = track.goodRawC === null && track.suspectRawC !== rawC
      const waiting = isFirst ? { suspectAtMs: atMs, suspectRawC: rawC } : {}
      return { ...track, ...last, ...waiting }
    }
    case 'future':
      return { ...track, ...last }
    default:
      return verdict satisfies never
  }
}

/** In the order of the fields of `Track`: this is every reading's way, and a copy by spreading costs ten times that. */
const goodTrack = (atMs: number, rawC: number, periodMs: number | null): Track => ({
  lastAtMs: atMs,
  lastRawC: rawC,
  goodAtMs: atMs,
  goodRawC: rawC,
  suspectAtMs: null,
  suspectRawC: null,
  periodMs,
})

/** Follows the usual time between values; one gap moves it by a tenth at most, so a silence stays a silence. */
function periodAfter(track: Track, atMs: number): number | null {
  if (track.lastAtMs === null) return track.periodMs
  const gapMs = atMs - track.lastAtMs
  if (track.periodMs === null) return gapMs
  return track.periodMs + 0.1 * (Math.min(gapMs, 2 * track.periodMs + 1) - track.periodMs)
}
