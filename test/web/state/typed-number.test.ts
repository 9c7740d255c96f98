import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { shownNumber, typedNumber } from '../../../web/state/typed-number.ts'

// The defining points of the two scales (ice 0 °C = 32 °F, steam 100 °C = 212 °F) and a table of dyers' temperatures.
test.each([
  [0, '32'],
  [100, '212'],
  [60, '140'],
  [66, '150.8'],
  [71, '159.8'],
  [78, '172.4'],
  [82, '179.6'],
  [85, '185'],
  [88, '190.4'],
  [90, '194'],
  [93, '199.4'],
])('%d °C is typed and shown as %s °F', (tempC, text) => {
  expect(shownNumber(tempC, 'C', 'F')).toBe(text)
  expect(typedNumber(text, 'C', 'F', undefined)).toBeCloseTo(tempC, 3)
})

test('a difference is not shifted: 1 °C is 1.8 °F, a correction of −0.9 °F is −0.5 °C', () => {
  expect(shownNumber(1, 'rate', 'F')).toBe('1.8')
  expect(typedNumber('-0.9', 'rate', 'F', undefined)).toBe(-0.5)
  expect(typedNumber('−0,9', 'rate', 'F', undefined)).toBe(-0.5)
})

test('what nobody typed over stays to the last digit; a word is no number in any unit', () => {
  const sorts = fc.constantFrom('C' as const, 'rate' as const, 'plain' as const)
  fc.assert(
    fc.property(fc.double({ min: -5, max: 105, noNaN: true }), sorts, (value, sort) => {
      expect(typedNumber(shownNumber(value, sort, 'F'), sort, 'F', value)).toBe(value)
    }),
  )
  expect(typedNumber('lukewarm', 'C', 'F', 40)).toBeNull()
  expect(typedNumber('', 'C', 'C', undefined)).toBeNull()
})
