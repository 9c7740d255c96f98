import { expect, test } from 'vitest'
import { celsius, differenceF, fahrenheit } from '#core/measure/units'

// 0/32 and 100/212 define the Fahrenheit scale against the Celsius scale.
test('fahrenheit and celsius agree at the two fixed points of the scale', () => {
  expect(fahrenheit(0)).toBe(32)
  expect(fahrenheit(100)).toBe(212)
  expect(celsius(212)).toBe(100)
})

test('differenceF scales without the 32', () => {
  expect(differenceF(5)).toBe(9)
})
