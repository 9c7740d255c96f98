import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { readNumber } from '#core/measure/read-number'

// IEEE 488.2 §8.7.2–8.7.4, examples of instrument programming guides: NR1, NR2 and NR3.
test.each([
  ['146', 146],
  ['+146', 146],
  ['-12345', -12345],
  ['12.3', 12.3],
  ['+1.2345', 1.2345],
  ['-0.123', -0.123],
  ['1.23E+6', 1.23e6],
  ['123.4E-54', 123.4e-54],
  ['-1234.567E+90', -1234.567e90],
  ['+9.91000000E+37', 9.91e37],
  ['71,25', 71.25],
])('%s is read as it stands', (text, value) => {
  expect(readNumber(text)).toBe(value)
})

test.each(['', '--', 'NaN', 'nan', 'OL', '7 1', '71.2C', '0x1f', '1e', 'Infinity', '1.2.3', '٣', '1e9999'])(
  '"%s" is no number',
  (text) => {
    expect(readNumber(text)).toBeNull()
  },
)

test('what is read is what was written', () => {
  fc.assert(
    fc.property(fc.double({ min: -1e6, max: 1e6, noNaN: true }), (x) => {
      expect(readNumber(x.toFixed(3))).toBe(Number(x.toFixed(3)))
    }),
  )
})
