import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { currentLoopC } from '#core/measure/current-loop'
import { crc8, scratchpadC, sixteenthsC } from '#core/measure/scratchpad'
import { signalC } from '#core/measure/signal'
import { steinhartHartThrough, thermistorByBetaC } from '#core/measure/thermistor'

// A maker's table no. 8016 (data sheet B57861S), R/R25, four figures; β25/100 = 3988 K.
const NTC_8016: readonly (readonly [tempC: number, ratio: number])[] = [
  [0, 3.265],
  [5, 2.539],
  [10, 1.99],
  [15, 1.571],
  [20, 1.249],
  [25, 1],
  [30, 0.8057],
  [35, 0.6531],
  [40, 0.5327],
  [45, 0.4369],
  [50, 0.3603],
  [55, 0.2986],
  [60, 0.2488],
  [65, 0.2083],
  [70, 0.1752],
  [75, 0.1481],
  [80, 0.1258],
  [85, 0.1072],
  [90, 0.09177],
  [95, 0.07885],
  [100, 0.068],
]

const THREE_LINES = [
  { ohms: 32_650, tempC: 0 },
  { ohms: 3603, tempC: 50 },
  { ohms: 680, tempC: 100 },
] as const

test.each(NTC_8016)('a thermistor set by three lines of its table reads %d °C', (tempC, ratio) => {
  const read = signalC({ kind: 'ntc-table', points: THREE_LINES }, 10_000 * ratio)
  const offC = read.ok ? Math.abs(read.rawC - tempC) : Number.NaN
  expect(offC).toBeLessThanOrEqual(0.03)
})

// The constants through 0, 50 and 100 °C of that table, computed by a reference library.
test('the three constants agree with a reference computation', () => {
  const { a, b, c } = steinhartHartThrough(THREE_LINES)
  expect(a).toBeCloseTo(1.12530885e-3, 9)
  expect(b).toBeCloseTo(2.34711863e-4, 10)
  expect(c).toBeCloseTo(8.5663516e-8, 12)
})

// How far the Beta form is off that table, computed by a reference library: +0.77 at 0, −0.37 at 50, −0.32 at 80 °C.
test('the Beta form is as far off the table as it is known to be', () => {
  expect(thermistorByBetaC(32_650, 10_000, 3988) - 0).toBeCloseTo(0.77, 1)
  expect(thermistorByBetaC(3603, 10_000, 3988) - 50).toBeCloseTo(-0.37, 1)
  expect(thermistorByBetaC(1258, 10_000, 3988) - 80).toBeCloseTo(-0.32, 1)
  expect(thermistorByBetaC(10_000, 10_000, 3988)).toBeCloseTo(25, 10)
})

const hex = (text: string) => text.split(' ').map((b) => Number.parseInt(b, 16))

// Application note 27 of the chip's maker: the ROM 02 1C B8 01 00 00 00 has the checksum A2; with it the sum is 0.
test('the checksum agrees with its application note', () => {
  expect(crc8(hex('02'))).toBe(0xbc)
  expect(crc8(hex('02 1C'))).toBe(0xaf)
  expect(crc8(hex('02 1C B8 01 00 00 00'))).toBe(0xa2)
  expect(crc8(hex('02 1C B8 01 00 00 00 A2'))).toBe(0)
  expect(crc8(Array.from('123456789', (c) => c.charCodeAt(0)))).toBe(0xa1)
})

// The data sheet's table of temperature and data.
test.each([
  [125, 0x07d0],
  [85, 0x0550],
  [25.0625, 0x0191],
  [10.125, 0x00a2],
  [0.5, 0x0008],
  [0, 0],
  [-0.5, 0xfff8],
  [-10.125, 0xff5e],
  [-25.0625, 0xfe6f],
  [-55, 0xfc90],
])('%d °C is what the register %d says', (tempC, register) => {
  expect(sixteenthsC(register)).toBe(tempC)
})

test('a scratchpad is read only when it is whole', () => {
  expect(scratchpadC(hex('91 01 4B 46 7F FF 0C 10 70'))).toEqual({ ok: true, tempC: 25.0625 })
  expect(scratchpadC(hex('70 01 4B 46 7F FF 10 10 E1'))).toEqual({ ok: true, tempC: 23 })
  // Two frames that circulate in public with a checksum that is wrong.
  expect(scratchpadC(hex('A1 01 4B 46 7F FF 0C 10 5C')).ok).toBe(false)
  expect(scratchpadC(hex('6A FE 4B 46 7F FF 0C 10 3F')).ok).toBe(false)
  expect(scratchpadC(hex('91 01')).ok).toBe(false)
})

// Registers of the data sheet's table with their checksums by a reference library; byte 6 is 0C in each.
test.each([
  ['A2 00 4B 46 7F FF 0C 10 74', 10.125],
  ['5E FF 4B 46 7F FF 0C 10 6A', -10.125],
  ['D0 07 4B 46 7F FF 0C 10 F4', 125],
  ['90 FC 4B 46 7F FF 0C 10 4F', -55],
  // The two frames above with the checksums that they ought to have.
  ['A1 01 4B 46 7F FF 0C 10 8C', 26.0625],
  ['6A FE 4B 46 7F FF 0C 10 BE', -25.375],
])('the scratchpad %s is %f °C', (frame, tempC) => {
  expect(scratchpadC(hex(frame))).toEqual({ ok: true, tempC })
})

test('eight bytes of ones have the checksum C9, so nine of them never pass', () => {
  expect(crc8(Array.from({ length: 8 }, () => 0xff))).toBe(0xc9)
})

test('all zeros pass the checksum and are a bus held low', () => {
  expect(crc8(Array.from({ length: 9 }, () => 0))).toBe(0)
  expect(scratchpadC(Array.from({ length: 9 }, () => 0))).toMatchObject({ ok: false, fault: 'not-connected' })
  expect(scratchpadC(Array.from({ length: 9 }, () => 255))).toMatchObject({
    ok: false,
    fault: 'not-connected',
  })
})

// 50 05 4B 46 7F FF 0C 10 1C: several public listings of a chip that was read before it measured.
test('the power-on register is no measurement, and a measured 85 °C is one', () => {
  expect(scratchpadC(hex('50 05 4B 46 7F FF 0C 10 1C'))).toMatchObject({ ok: false, fault: 'error-code' })
  const measured = hex('50 05 4B 46 7F FF 10 10')
  expect(scratchpadC([...measured, crc8(measured)])).toEqual({ ok: true, tempC: 85 })
})

test('4–20 mA is a straight line between its two ends', () => {
  for (const [milliamps, tempC] of [
    [4, 0],
    [8, 25],
    [12, 50],
    [16, 75],
    [20, 100],
  ] as const) {
    expect(currentLoopC(milliamps, 0, 100)).toEqual({ ok: true, tempC })
  }
  expect(currentLoopC(8, -50, 150)).toEqual({ ok: true, tempC: 0 })
  expect(currentLoopC(12, -50, 150)).toEqual({ ok: true, tempC: 50 })
  expect(currentLoopC(16, -50, 150)).toEqual({ ok: true, tempC: 100 })
})

// NAMUR NE 43: 3.8 to 20.5 mA measures (−1.25 to 103.125 % of the span), under 3.6 and over 21.0 mA is a failure.
test('the limits of NE 43 hold to the digit', () => {
  expect(currentLoopC(3.8, 0, 100)).toMatchObject({ ok: true, tempC: expect.closeTo(-1.25, 9) as number })
  expect(currentLoopC(20.5, 0, 100)).toMatchObject({ ok: true, tempC: expect.closeTo(103.125, 9) as number })
  for (const milliamps of [3.79, 3.59, 20.51, 21.01, NaN]) {
    expect(currentLoopC(milliamps, 0, 100)).toMatchObject({ ok: false, fault: 'error-code' })
  }
  expect(currentLoopC(0, 0, 100)).toMatchObject({ ok: false, fault: 'not-connected' })
})

test('a broken or shorted sensor is not connected, whatever its kind', () => {
  const pt = { kind: 'platinum', ohms0: 100, leadOhms: 0 } as const
  const ntc = { kind: 'ntc-beta', ohms25: 10_000, betaK: 3988 } as const
  const couple = { kind: 'thermocouple', type: 'K', coldC: 22 } as const
  for (const [signal, value] of [
    [pt, 1e9],
    [pt, 0],
    [ntc, 1e9],
    [ntc, 0],
    [couple, 90],
  ] as const) {
    expect(signalC(signal, value)).toMatchObject({ ok: false, fault: 'not-connected' })
  }
})

test('the resistance of two lead wires is taken off first', () => {
  const value = signalC({ kind: 'platinum', ohms0: 100, leadOhms: 0.6 }, 131.5)
  expect(value).toMatchObject({ ok: true, rawC: expect.closeTo(80, 1) as number })
})

test('any nine bytes: a temperature only with a right checksum, never a throw', () => {
  fc.assert(
    fc.property(fc.array(fc.nat({ max: 255 }), { minLength: 0, maxLength: 10 }), (bytes) => {
      const value = scratchpadC(bytes)
      expect(value.ok && (bytes.length !== 9 || crc8(bytes) !== 0)).toBe(false)
    }),
  )
})

// IEC 60751: Pt100 has 172.17 Ω at 190 °C and 179.53 Ω at 210 °C, 80.31 Ω at −50 °C and 72.33 Ω at −70 °C.
test('a resistance that no whole sensor in a bath has is an open or short circuit', () => {
  const platinum = { kind: 'platinum', ohms0: 100, leadOhms: 0 } as const
  const read = [72.33, 80.31, 172.17, 179.53].map((ohms) => signalC(platinum, ohms))
  expect(read.map((value) => value.ok)).toEqual([false, true, true, false])
  expect(read[3]).toMatchObject({ fault: 'not-connected', found: '179.53 ohm: open or short circuit' })
})
