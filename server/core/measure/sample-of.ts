import { faultOf, foundText } from './possible.ts'
import type { Sample } from './reading.ts'

/**
 * A sample from a number of °C: a temperature, or the fault that the number stands for. `found`: the text it
 * was read from, kept with a fault.
 */
export function sampleOf(probe: string, atMs: number, rawC: number, found = String(rawC)): Sample {
  const fault = faultOf(rawC)
  return fault === null
    ? { kind: 'temp', probe, atMs, rawC }
    : { kind: 'fault', probe, atMs, fault, found: foundText(found) }
}
