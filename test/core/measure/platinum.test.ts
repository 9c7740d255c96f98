import { expect, test } from 'vitest'
import { platinumC, platinumOhms } from '#core/measure/platinum'

// IEC 60751 table of a Pt100 as printed by a sensor maker, ohms, two decimals: half of the last digit allowed.
const TABLE: readonly (readonly [tempC: number, ohms: number])[] = [
  [-50, 80.31],
  [-40, 84.27],
  [-30, 88.22],
  [-20, 92.16],
  [-10, 96.09],
  [0, 100],
  [10, 103.9],
  [20, 107.79],
  [30, 111.67],
  [40, 115.54],
  [50, 119.4],
  [60, 123.24],
  [70, 127.08],
  [80, 130.9],
  [90, 134.71],
  [100, 138.51],
  [110, 142.29],
  [120, 146.07],
  [130, 149.83],
  [140, 153.58],
  [150, 157.33],
]

test.each(TABLE)('a Pt100 at %d °C has %d ohm, and back', (tempC, ohms) => {
  expect(Math.abs(platinumOhms(100, tempC) - ohms)).toBeLessThanOrEqual(0.0051)
  // 0.0051 ohm are 0.014 °C at 0.37 ohm a degree.
  expect(Math.abs(platinumC(100, ohms) - tempC)).toBeLessThanOrEqual(0.014)
})

test('a Pt1000 is ten times a Pt100', () => {
  expect(platinumC(1000, 1309.0)).toBeCloseTo(platinumC(100, 130.9), 10)
})

test('there and back agree closely on both sides of zero', () => {
  for (let tempC = -60; tempC <= 150; tempC += 0.5) {
    expect(platinumC(100, platinumOhms(100, tempC))).toBeCloseTo(tempC, 8)
  }
})

// The classical error: 119.40 ohm by 0.385 ohm a degree is 50.4 °C, by the standard 50.0.
test('the curve is not taken for a straight line', () => {
  expect(platinumC(100, 119.4)).toBeCloseTo(50.0, 1)
})

test('no resistance at all is no temperature', () => {
  for (const ohms of [0, -1, NaN]) expect(platinumC(100, ohms)).toBeNaN()
})

// The equations of IEC 60751 computed to four decimals by a reference library; 85 and 95 °C are where baths are.
test.each([
  [-50, 80.3063],
  [-20, 92.1599],
  [10, 103.9025],
  [40, 115.5408],
  [60, 123.2419],
  [80, 130.8968],
  [85, 132.8033],
  [90, 134.7069],
  [95, 136.6077],
  [150, 157.3251],
])('a Pt100 at %d °C has %f ohm to the fourth decimal', (tempC, ohms) => {
  expect(Math.abs(platinumOhms(100, tempC) - ohms)).toBeLessThanOrEqual(0.000051)
})
