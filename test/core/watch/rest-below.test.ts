import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { restBelow } from '#core/watch/rest-below'

const MINUTE_MS = 60_000

/** A level each half minute. */
const seen = (minutes: number, tempC: (min: number) => number) =>
  Array.from({ length: 2 * minutes + 1 }, (_, i) => ({ atMs: i * 30_000, tempC: tempC(i / 2) }))

/** Newton's law of cooling, T = A + (T₀ − A)·e^(−t/τ) (OpenStax Calculus 2, section 4.3). */
const newton = (fromC: number, restC: number, tauMin: number) => (min: number) =>
  restC + (fromC - restC) * Math.exp(-min / tauMin)

test('a curve of Newton’s law comes to rest where the law says', () => {
  const restC = fc.double({ min: 15, max: 60, noNaN: true })
  const tauMin = fc.double({ min: 40, max: 150, noNaN: true })
  fc.assert(
    fc.property(restC, tauMin, (rest, tau) => {
      const points = seen(200, newton(rest + 20, rest, tau))
      const found = restBelow(points, 0, 0)
      // The levels are means of the last four minutes, so they are those of two minutes before.
      const trueC = 20 * Math.exp(-198 / tau)
      expect(Math.abs(found!.belowC - trueC)).toBeLessThan(0.05 * trueC + 0.02)
      expect(found!.mostC).toBeGreaterThan(found!.belowC)
    }),
    { numRuns: 50, seed: 3 },
  )
})

const open = (min: number) => 85 - 0.3 * min

test('a lid put on between or within the spans leaves no such curve', () => {
  for (let lidMin = 70; lidMin <= 118; lidMin += 4) {
    const points = seen(120, (min) => (min < lidMin ? open(min) : open(lidMin) - 0.1 * (min - lidMin)))
    expect(restBelow(points, 0, 0.1)?.mostC ?? Infinity).toBeGreaterThan(10)
  }
})

test('what was disturbed or too short says nothing, and neither does a bath that rises or stands', () => {
  const points = seen(200, newton(72, 60, 60))
  expect(restBelow(points, 140 * MINUTE_MS, 0)).toBeNull()
  expect(restBelow(points.slice(0, 100), 0, 0)).toBeNull()
  expect(restBelow([], 0, 0)).toBeNull()
  expect(
    restBelow(
      seen(200, (min) => 60 + 0.1 * min),
      0,
      0,
    ),
  ).toBeNull()
  expect(
    restBelow(
      seen(200, () => 60),
      0,
      0,
    ),
  ).toBeNull()
})

test('the coarser a probe counts, the less is sure', () => {
  const points = seen(90, newton(75, 60, 60))
  const most = [0, 0.1, 0.5].map((stepC) => restBelow(points, 0, stepC)?.mostC ?? Infinity)
  expect(most[0]).toBeLessThan(most[1]!)
  expect(most[1]).toBeLessThan(most[2]!)
})
