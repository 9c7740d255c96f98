import { expect, test } from 'vitest'
import { faultOf, foundText } from '#core/measure/possible'

// IEEE 488.2: not-a-number is 9.91E37, the infinities ±9.9E37. −127: what common boards print (common practice, no source).
test.each([
  [Number.NaN, 'error-code'],
  [Number.NEGATIVE_INFINITY, 'error-code'],
  [9.91e37, 'error-code'],
  [-9.9e37, 'error-code'],
  [-127, 'not-connected'],
])('%d is %s', (rawC, fault) => {
  expect(faultOf(rawC)).toBe(fault)
})

test('a bath has −20 to 110 °C, both counted in; a hair outside is impossible', () => {
  expect([-20, 0, 85, 110].map(faultOf)).toEqual([null, null, null, null])
  expect([-20.1, 110.1, 1e6].map(faultOf)).toEqual(['impossible', 'impossible', 'impossible'])
})

test('what was found is one line of at most 80 characters without control characters', () => {
  expect(foundText(' \u001b[31mopen\r\ncircuit\u2028 ')).toBe('[31mopen circuit')
  expect(foundText('7'.repeat(81))).toBe('7'.repeat(80))
})
