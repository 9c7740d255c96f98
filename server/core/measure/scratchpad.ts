import type { ProbeFault } from './reading.ts'

/** X⁸ + X⁵ + X⁴ + 1, bits taken lowest first, register from 0: the one-wire checksum (application note 27). */
export function crc8(bytes: readonly number[]): number {
  return bytes.reduce((register, byte) => {
    let crc = register ^ byte
    for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >> 1) ^ 0x8c : crc >> 1
    return crc
  }, 0)
}

export type ScratchpadValue =
  | { readonly ok: true; readonly tempC: number }
  | { readonly ok: false; readonly fault: ProbeFault; readonly found: string }

/**
 * °C from the nine bytes of a 12-bit one-wire chip. All zeros pass the checksum and are a bus held low; the
 * power-on register (0550h) beside byte 6 = 0Ch is a chip that has not measured (common practice, no source),
 * while beside 10h it is a true 85 °C.
 */
export function scratchpadC(bytes: readonly number[]): ScratchpadValue {
  if (bytes.length !== 9)
    return { ok: false, fault: 'error-code', found: `${bytes.length} bytes in place of 9` }
  const found = bytes.map((b) => b.toString(16).padStart(2, '0')).join(' ')
  if (bytes.every((b) => b === 0) || bytes.every((b) => b === 0xff)) {
    return { ok: false, fault: 'not-connected', found }
  }
  if (crc8(bytes.slice(0, 8)) !== bytes[8])
    return { ok: false, fault: 'error-code', found: `bad checksum: ${found}` }
  const register = bytes[0]! | (bytes[1]! << 8)
  if (register === 0x0550 && bytes[6] === 0x0c)
    return { ok: false, fault: 'error-code', found: `start-up: ${found}` }
  return { ok: true, tempC: sixteenthsC(register) }
}

/** °C of a 16-bit register in two's complement, 1/16 °C a count. */
export const sixteenthsC = (register: number): number => ((register << 16) >> 16) / 16
