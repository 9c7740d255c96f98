import { describe, expect, test } from 'vitest'
import { type Estimate, bathOf, startEstimate, stepEstimate } from '#core/watch/estimate'
import { predict, update } from '#core/watch/kalman'
import { seeded } from '../../kit/seeded.ts'

// Steady state of the filter for q = 0.02 (°C/min)²/min and a reading's variance of 0.0025 °C², computed with
// SciPy's solve_discrete_are (scipy.linalg) for F = [[1, dt], [0, 1]] and Q = q·[[dt³/3, dt²/2], [dt²/2, dt]]:
// the gains of level and rate and the variances after a reading.
test.each([
  [1 / 60, 0.10445699, 0.34555135, 0.00026114247417919793, 0.005879149100585954],
  [10 / 60, 0.46226796, 0.84674439, 0.0011556698893592922, 0.009252046516824274],
  [1, 0.90639476, 0.86535654, 0.0022659868943428266, 0.01094846962581569],
])(
  'the filter settles where the Riccati equation says, a reading each %f min',
  (dtMin, gainLevel, gainRate, varLevel, varRate) => {
    let x = { levelC: 0, rateCPerMin: 0, varLevel: 1, covar: 0, varRate: 1 }
    for (let i = 0; i < 3000; i++) x = update(predict(x, dtMin, 0.02), 0, 0.0025)
    const before = predict(x, dtMin, 0.02)
    const after = update(before, 1, 0.0025)
    expect(after.levelC).toBeCloseTo(gainLevel, 6)
    expect(after.rateCPerMin).toBeCloseTo(gainRate, 6)
    expect(after.varLevel / varLevel).toBeCloseTo(1, 6)
    expect(after.varRate / varRate).toBeCloseTo(1, 6)
  },
)

const fold = (temps: readonly number[], everyMs = 1000): Estimate =>
  temps.reduce<Estimate | null>((e, tempC, i) => {
    const point = { atMs: i * everyMs, tempC }
    return e === null ? startEstimate(point) : stepEstimate(e, point)
  }, null)!

describe('the estimate', () => {
  test('leads a lagging probe by rate times lag on a ramp', () => {
    // Ramp lag = rate × τ: 2 °C/min with τ = 15 s is 0.50 °C (computed; sheathed-probe time-constant notes).
    const e = fold(Array.from({ length: 600 }, (_, s) => 20 + (2 * s) / 60))
    const last = 20 + (2 * 599) / 60
    expect(bathOf(e, 15).tempC - last).toBeCloseTo(0.5, 2)
  })

  test('puts a lone spike aside and follows a step at its second reading', () => {
    const flat = Array.from({ length: 300 }, () => 80)
    expect(bathOf(fold([...flat, 85]), 0).tempC).toBeCloseTo(80, 6)
    expect(bathOf(fold([...flat, 85, 80]), 0).tempC).toBeCloseTo(80, 2)
    expect(bathOf(fold([...flat, 75, 75]), 0).tempC).toBeCloseTo(75, 2)
  })

  test('takes the trembling out of a probe and keeps a ramp', () => {
    const random = seeded(5)
    const e = fold(Array.from({ length: 1200 }, (_, s) => 60 + s / 60 + random.normal(0, 0.1)))
    const { tempC, rateCPerMin, sigmaC } = bathOf(e, 0)
    expect(Math.abs(tempC - (60 + 1199 / 60))).toBeLessThan(0.08)
    expect(Math.abs(rateCPerMin - 1)).toBeLessThan(0.3)
    expect(sigmaC).toBeLessThan(0.08)
  })

  // The Hampel vector of the reference table: its two outliers, 85.0 and 60.0, must not be followed.
  test('follows neither outlier of the reference vector', () => {
    const vector = [80.1, 80.2, 80.1, 80.3, 85, 80.2, 80.4, 80.3, 80.5, 60, 80.4, 80.6, 80.5]
    const settled = Array.from({ length: 60 }, (_, i) => 80.1 + 0.1 * (i % 2))
    for (let n = 1; n <= vector.length; n++) {
      const { tempC } = bathOf(fold([...settled, ...vector.slice(0, n)]), 0)
      expect(Math.abs(tempC - 80.3)).toBeLessThan(0.4)
    }
  })

  test('a reading that is not later than the last one changes nothing', () => {
    const e = fold([80, 80.1])
    expect(stepEstimate(e, { atMs: 1000, tempC: 90 })).toBe(e)
  })
})
