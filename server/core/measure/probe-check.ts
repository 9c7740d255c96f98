import type { Reading } from './reading.ts'

/** Where a probe is checked. `reference`: beside a thermometer that is trusted, in a stirred pot. */
export type CheckPlace = 'ice' | 'boiling' | 'reference'

/** A guided check of a probe: it waits until the reading has settled and says so, or refuses it. */
export type ProbeCheck =
  | {
      readonly kind: 'waiting'
      readonly place: CheckPlace
      /** What a true probe would say, °C: 0 for ice, the local boiling point, or the reference's value. */
      readonly expectedC: number
      readonly startedMs: number
      /** Raw values of the last minute. */
      readonly recent: readonly { readonly atMs: number; readonly rawC: number }[]
      readonly badInARow: number
      /** What still keeps it waiting, for the person at the pot. */
      readonly waitsFor: WaitsFor
    }
  | {
      readonly kind: 'settled'
      readonly place: CheckPlace
      readonly expectedC: number
      readonly rawC: number
      /** Largest minus smallest raw value while it stood, °C. */
      readonly spreadC: number
      readonly atMs: number
    }
  | { readonly kind: 'refused'; readonly place: CheckPlace; readonly why: string; readonly atMs: number }

export type WaitsFor = 'readings' | 'time' | 'steadiness'

/** The tip has to stand for two minutes at least (checks take three to five: common practice, no source), ms. */
const LEAST_MS = 120_000
/** The reading must stand still for this long, ms. */
const STEADY_MS = 60_000
/** Then it may spread by this much, °C, and drift by this much from the first half of the minute to the second. */
const STEADY_C = { spread: 0.3, drift: 0.05 } as const
const LEAST_READINGS = 5
/** A check that takes longer is given up, ms. */
const LONGEST_MS = 15 * 60_000
/** A probe that settles farther off was not where it should be, °C. */
const FAR_C = 5
const BAD_ALLOWED = 3

/** Begins a check; the probe is in the ice, the boiling water or the reference's pot from now on. */
export function startCheck(place: CheckPlace, expectedC: number, startedMs: number): ProbeCheck {
  return { kind: 'waiting', place, expectedC, startedMs, recent: [], badInARow: 0, waitsFor: 'readings' }
}

/** The check after one more reading of the probe. Settled and refused checks stay as they are. */
export function stepCheck(check: ProbeCheck, reading: Reading): ProbeCheck {
  if (check.kind !== 'waiting' || reading.atMs < check.startedMs) return check
  const { place } = check
  const refuse = (why: string): ProbeCheck => ({ kind: 'refused', place, why, atMs: reading.atMs })
  if (reading.atMs - check.startedMs > LONGEST_MS) {
    return refuse(
      'the reading did not settle within 15 min; stir, pack more ice or boil harder, and begin again',
    )
  }
  if (!isWholesome(reading)) {
    const badInARow = check.badInARow + 1
    if (badInARow > BAD_ALLOWED)
      return refuse('the probe reports faults; look at its wires before checking it')
    return { ...check, badInARow }
  }
  const recent = [...check.recent, { atMs: reading.atMs, rawC: reading.rawC }].filter(
    (r) => reading.atMs - r.atMs <= STEADY_MS,
  )
  const waitsFor = stillWaitsFor(check.startedMs, recent, reading.atMs)
  if (waitsFor !== null) return { ...check, recent, badInARow: 0, waitsFor }
  return settled(check, recent, reading.atMs)
}

const isWholesome = (reading: Reading): reading is Extract<Reading, { kind: 'temp' }> =>
  reading.kind === 'temp' && reading.verdict === 'good'

interface Seen {
  readonly atMs: number
  readonly rawC: number
}

function stillWaitsFor(startedMs: number, recent: readonly Seen[], nowMs: number): WaitsFor | null {
  const covers = recent.length > 0 && nowMs - recent[0]!.atMs >= 0.8 * STEADY_MS
  if (recent.length < LEAST_READINGS) return 'readings'
  if (nowMs - startedMs < LEAST_MS || !covers) return 'time'
  return isSteady(recent) ? null : 'steadiness'
}

function isSteady(recent: readonly Seen[]): boolean {
  const half = Math.floor(recent.length / 2)
  const driftC = mean(recent.slice(half)) - mean(recent.slice(0, half))
  return spreadOf(recent) <= STEADY_C.spread && Math.abs(driftC) <= STEADY_C.drift
}

function settled(
  check: Extract<ProbeCheck, { kind: 'waiting' }>,
  recent: readonly Seen[],
  atMs: number,
): ProbeCheck {
  const { place, expectedC } = check
  // The later half: a slow probe still carries a little of where it came from in the first.
  const rawC = mean(recent.slice(Math.floor(recent.length / 2)))
  if (Math.abs(rawC - expectedC) > FAR_C) {
    const why =
      `it settled at ${rawC.toFixed(1)} °C where ${expectedC.toFixed(1)} °C is expected, over ${FAR_C} °C off: ` +
      FAR_ADVICE[place]
    return { kind: 'refused', place, why, atMs }
  }
  return { kind: 'settled', place, expectedC, rawC, spreadC: spreadOf(recent), atMs }
}

const FAR_ADVICE: Readonly<Record<CheckPlace, string>> = {
  ice: 'is the tip in the middle of packed ice with water in its gaps?',
  boiling: 'is it at a rolling boil, with the tip in the water and off the base?',
  reference: 'are both tips side by side in the stirred pot?',
}

const mean = (seen: readonly Seen[]): number => seen.reduce((a, r) => a + r.rawC, 0) / seen.length

const spreadOf = (seen: readonly Seen[]): number =>
  seen.reduce((max, r) => Math.max(max, r.rawC), -Infinity) -
  seen.reduce((min, r) => Math.min(min, r.rawC), Infinity)
