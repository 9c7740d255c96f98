import { expect, test } from 'vitest'
import { celsius, differenceC, differenceF, fahrenheit } from '#core/measure/units'

// 0/32 and 100/212 define the Fahrenheit scale against the Celsius scale.
test('fahrenheit and celsius agree at the two fixed points of the scale', () => {
  expect(fahrenheit(0)).toBe(32)
  expect(fahrenheit(100)).toBe(212)
  expect(celsius(212)).toBe(100)
})

// By definition of the scale 5 °C of difference are 9 °F.
test('a difference scales without the 32, both ways', () => {
  expect(differenceF(5)).toBe(9)
  expect(differenceC(9)).toBe(5)
})

// The definition of the scale, worked for the temperatures of the trade.
test.each([
  [60, 140],
  [66, 150.8],
  [71, 159.8],
  [78, 172.4],
  [82, 179.6],
  [85, 185],
  [88, 190.4],
  [90, 194],
  [93, 199.4],
])('%f °C are %f °F, and back', (tempC, tempF) => {
  expect(fahrenheit(tempC)).toBeCloseTo(tempF, 9)
  expect(celsius(tempF)).toBeCloseTo(tempC, 9)
})

// What the trade prints as a pair is often rounded: 160 °F stand beside 72 °C and are 71.1, 195 °F beside 90 and are 90.6.
test('a printed pair of the trade is not taken for a conversion', () => {
  expect(celsius(160)).toBeCloseTo(71.1, 1)
  expect(celsius(195)).toBeCloseTo(90.6, 1)
})
