import { expect, test } from 'vitest'
import { correctedC, type Correction } from '#core/measure/correction'

test('without a correction the raw value is the temperature', () => {
  expect(correctedC([], 71.3, 0)).toBe(71.3)
})

// A trade worked example: ice +0.4, boil 98.9 where water boils at 99.0 °C (300 m):
// raw 80.0 → 79.6 × 99.0 / 98.5 = 80.00, raw 67.0 → 66.94.
test('a two-point correction is the line through both checks', () => {
  const line: Correction = {
    kind: 'two-point',
    fromMs: 0,
    low: { rawC: 0.4, trueC: 0 },
    high: { rawC: 98.9, trueC: 99 },
  }
  expect(correctedC([line], 80, 1)).toBeCloseTo(80.0, 2)
  expect(correctedC([line], 67, 1)).toBeCloseTo(66.94, 2)
  expect(correctedC([line], 0.4, 1)).toBe(0)
})

test('a correction holds from its date on and older readings keep the one of their time', () => {
  const corrections: Correction[] = [
    { kind: 'offset', fromMs: 2000, offsetC: -0.6 },
    { kind: 'offset', fromMs: 1000, offsetC: 0.2 },
  ]
  expect(correctedC(corrections, 70, 999)).toBe(70)
  expect(correctedC(corrections, 70, 1000)).toBeCloseTo(70.2, 12)
  expect(correctedC(corrections, 70, 1999)).toBeCloseTo(70.2, 12)
  expect(correctedC(corrections, 70, 2000)).toBeCloseTo(69.4, 12)
})

test('of two corrections of one moment the later in the list holds', () => {
  const corrections: Correction[] = [
    { kind: 'offset', fromMs: 0, offsetC: 1 },
    { kind: 'offset', fromMs: 0, offsetC: 2 },
  ]
  expect(correctedC(corrections, 70, 5)).toBe(72)
})

// JCGM 100:2008, H.3.4: the predicted correction at 30 °C is −0.1494 °C.
test('a fitted line adds its correction at the reading', () => {
  const line: Correction = {
    kind: 'line',
    fromMs: 0,
    refC: 20,
    atRefC: -0.17120379013,
    slope: 0.00218269774,
    uAtRefC: 0.002877598,
    uSlope: 0.000667939,
    correlation: -0.93043,
    residualC: 0.003497564,
    points: [],
  }
  expect(correctedC([line], 30, 0)).toBeCloseTo(30 - 0.1494, 4)
})
