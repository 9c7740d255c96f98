/** What a probe or its board says when it has no temperature to give. */
export type ProbeFault =
  | 'not-connected' // an open circuit, −127, a dead one-wire bus, an exact 0.000 from all-zero data
  | 'error-code' // a sensor's own failure code, not-a-number, a current outside NE 43
  | 'impossible' // a number that no bath can have: outside −20…110 °C

/** One value as it arrived, decoded to °C, before any correction. `atMs`: arrival, Unix ms UTC. */
export type Sample =
  | { readonly kind: 'temp'; readonly probe: string; readonly atMs: number; readonly rawC: number }
  | {
      readonly kind: 'fault'
      readonly probe: string
      readonly atMs: number
      readonly fault: ProbeFault
      /** What was found, as text, at most 80 characters: `-127`, `open circuit`. */
      readonly found: string
    }

/**
 * Where a sample stands in its sender's life: `boot` names one run of the sender, `seq` counts up from 0
 * within it. With a probe's name they identify a reading for good, so that sending twice stores once.
 */
export interface Serial {
  readonly boot: string
  readonly seq: number
}

/**
 * Is this value believed? Anything but `good` stays on record and is never watched as a bath.
 * `start-up`: the value a chip shows before it has measured. `jump`: faster than water can change, and
 * nothing around it agrees. `second-value`: another value for a time that already has one. `future`: its
 * own time lies more than 5 s ahead.
 */
export type Verdict = 'good' | 'start-up' | 'jump' | 'second-value' | 'future'

/** A stored reading: `rawC` as decoded, `tempC` after the probe's correction of that date; or a fault. */
export type Reading =
  | {
      readonly kind: 'temp'
      readonly probe: string
      readonly atMs: number
      readonly rawC: number
      readonly tempC: number
      readonly verdict: Verdict
    }
  | Extract<Sample, { kind: 'fault' }>

/** No bath is colder or hotter than this, °C; a value outside is a fault of the probe or a unit mistaken. */
export const POSSIBLE_C = { low: -20, high: 110 } as const

/** Two readings further apart than this leave the time between them unknown, ms. */
export const GAP_MS = 60_000
