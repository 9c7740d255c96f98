import { POSSIBLE_C, type ProbeFault } from './reading.ts'

/** What common boards print for "no probe on the bus", °C (common practice, no source). */
const NOT_CONNECTED_C = -127

/** IEEE 488.2: not-a-number is 9.91E37 and the infinities are ±9.9E37; nothing near them is a measurement. */
const SCPI_NO_NUMBER = 9e37

/**
 * What a number says against itself, with no context: a fault, or `null` for a temperature that a bath can
 * have. `rawC`: °C as decoded, anything at all.
 */
export function faultOf(rawC: number): ProbeFault | null {
  if (!Number.isFinite(rawC) || Math.abs(rawC) >= SCPI_NO_NUMBER) return 'error-code'
  if (rawC === NOT_CONNECTED_C) return 'not-connected'
  if (rawC < POSSIBLE_C.low || rawC > POSSIBLE_C.high) return 'impossible'
  return null
}

/** Longest text of `found` in a fault. */
const FOUND_LENGTH = 80

/** What was found instead of a temperature, as one line of at most 80 printable characters. */
export const foundText = (found: string): string =>
  // Control characters would let a probe write into a log or a terminal.
  found
    .replace(/[\p{Cc}\u2028\u2029]+/gu, ' ')
    .trim()
    .slice(0, FOUND_LENGTH)
