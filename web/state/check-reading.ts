import type { Reading } from '#core/measure/reading'
import type { ReadingMessage } from '#core/wire/live'

/** A live message as the check of a probe takes it: its raw value, whatever correction holds now. */
export function checkReading({ probe, atMs, rawC, verdict }: ReadingMessage): Reading {
  if (rawC === null) return { kind: 'fault', probe, atMs, fault: 'not-connected', found: '' }
  return { kind: 'temp', probe, atMs, rawC, tempC: rawC, verdict: verdict === 'good' ? 'good' : 'jump' }
}
