import { expect, test } from 'vitest'
import { registerValue } from '../../../bridge/probe/modbus-value.ts'

// Modbus Application Protocol V1.1b3 §6.3: registers 108–110 hold 02 2B, 00 00, 00 64 = 555, 0, 100.
test('16-bit registers are big-endian', () => {
  expect(registerValue([0x022b], 'uint16', 'big')).toBe(555)
  expect(registerValue([0x0064], 'int16', 'big')).toBe(100)
  expect(registerValue([0xfff6], 'int16', 'big')).toBe(-10)
  expect(registerValue([0xfff6], 'uint16', 'big')).toBe(65_526)
})

// IEEE 754: 71.25 is 428E 8000h; −71 000 is FFFE EAA8h in two's complement.
test('32-bit values take two registers in either order', () => {
  expect(registerValue([0x428e, 0x8000], 'float32', 'big')).toBe(71.25)
  expect(registerValue([0x8000, 0x428e], 'float32', 'little')).toBe(71.25)
  expect(registerValue([0xfffe, 0xeaa8], 'int32', 'big')).toBe(-71_000)
  expect(registerValue([0xeaa8, 0xfffe], 'int32', 'little')).toBe(-71_000)
})
