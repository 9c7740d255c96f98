import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { correctedC } from '#core/measure/correction'
import { correctionOf } from '#core/measure/check-correction'
import { fitLine, lineUncertaintyC } from '#core/measure/fit-line'

// JCGM 100:2008 (GUM) H.3, Table H.6: readings t_k and observed corrections b_k of a thermometer.
const READINGS = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.01, 26.511]
const CORRECTIONS = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.16]
const CHECKS = READINGS.map((rawC, i) => ({ rawC, trueC: rawC + CORRECTIONS[i]! }))

// Results as printed in H.3.3 and H.3.4, and to more digits by a reference implementation.
test('the fit agrees with the worked example of the GUM', () => {
  const line = fitLine(CHECKS, 20)
  expect(line.atRefC).toBeCloseTo(-0.1712, 4)
  expect(line.atRefC).toBeCloseTo(-0.17120379013, 9)
  expect(line.slope).toBeCloseTo(0.00218269774, 10)
  expect(line.uAtRefC).toBeCloseTo(0.002877598, 8)
  expect(line.uSlope).toBeCloseTo(0.000667939, 8)
  expect(line.correlation).toBeCloseTo(-0.93043, 5)
  expect(line.residualC).toBeCloseTo(0.003497564, 8)
})

test('the uncertainty at 30 °C keeps the covariance', () => {
  const line = fitLine(CHECKS, 20)
  expect(line.atRefC + line.slope * 10).toBeCloseTo(-0.149376813, 8)
  expect(lineUncertaintyC(line, 30)).toBeCloseTo(0.004138596, 8)
  // Without the covariance it would be 0.0073.
  expect(Math.hypot(line.uAtRefC, 10 * line.uSlope)).toBeCloseTo(0.0073, 4)
})

test('anchored at the mean reading the two coefficients are not correlated', () => {
  const line = fitLine(CHECKS)
  expect(line.refC).toBeCloseTo(24.0085, 3)
  expect(line.correlation).toBeCloseTo(0, 9)
  expect(line.atRefC).toBeCloseTo(-0.1625, 4)
  expect(line.uAtRefC).toBeCloseTo(0.00105, 5)
})

test('where the line is anchored never changes what it says', () => {
  fc.assert(
    fc.property(
      fc.double({ min: -50, max: 150, noNaN: true }),
      fc.double({ min: 0, max: 100, noNaN: true }),
      (refC, rawC) => {
        const here = fitLine(CHECKS, refC)
        const there = fitLine(CHECKS)
        const at = (l: typeof here) => l.atRefC + l.slope * (rawC - l.refC)
        expect(at(here)).toBeCloseTo(at(there), 6)
        expect(lineUncertaintyC(here, rawC)).toBeCloseTo(lineUncertaintyC(there, rawC), 6)
      },
    ),
  )
})

test('fewer than three checks, or all at one reading, are no line', () => {
  expect(() => fitLine(CHECKS.slice(0, 2))).toThrow(RangeError)
  expect(() => fitLine([CHECKS[0]!, CHECKS[0]!, CHECKS[0]!])).toThrow(RangeError)
})

test('one check gives an offset, two a line, three a fit with its residual', () => {
  const at = [
    { rawC: 0.4, trueC: 0 },
    { rawC: 98.9, trueC: 99 },
    { rawC: 60.2, trueC: 60 },
  ]
  const made = [1, 2, 3].map((n) => correctionOf(at.slice(0, n), 1000, 'M.'))
  expect(made.map((m) => (m.ok ? m.correction.kind : m.why))).toEqual(['offset', 'two-point', 'line'])
  expect(made[0]).toMatchObject({ correction: { fromMs: 1000, who: 'M.', check: at[0] } })
  // A trade worked example: raw 80.0 → 79.6 × 99.0 / 98.5 = 80.00.
  expect(made[1]!.ok ? correctedC([made[1]!.correction], 80, 2000) : null).toBeCloseTo(80, 2)
})

test.each([
  ['none', [], /no settled check/],
  ['too far off', [{ rawC: 12, trueC: 0 }], /12\.0 °C off.*at most 5/],
  [
    'too close',
    [
      { rawC: 60, trueC: 60 },
      { rawC: 70, trueC: 70 },
    ],
    /10\.0 °C apart.*20/,
  ],
  [
    'against each other',
    [
      { rawC: 4, trueC: 0 },
      { rawC: 40, trueC: 44 },
    ],
    /stretch the scale by 22.*at most 5 %/,
  ],
])('checks that are %s are refused', (_, checks, why) => {
  const made = correctionOf(checks, 0)
  expect(made.ok ? 'taken' : made.why).toMatch(why)
})
