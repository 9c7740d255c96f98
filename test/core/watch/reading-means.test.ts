import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { NO_MEANS, withReading } from '#core/watch/reading-means'

const HOUR_S = 3600

test('no reading of the last hour is lost, and the mean of all means is theirs', () => {
  const everyS = fc.constantFrom(1, 2, 7, 30, 60)
  const temps = fc.array(fc.double({ min: 10, max: 95, noNaN: true }), { minLength: 1, maxLength: 400 })
  fc.assert(
    fc.property(everyS, temps, (every, readings) => {
      const inHour = readings.slice(0, Math.floor(HOUR_S / every))
      const means = inHour.reduce(
        (sofar, tempC, i) => withReading(sofar, { atMs: i * every * 1000, tempC }),
        NO_MEANS,
      )
      const all = [...means.old, ...means.closed, ...(means.open === null ? [] : [means.open])]
      const count = all.reduce((sum, m) => sum + m.count, 0)
      const sumC = all.reduce((sum, m) => sum + m.count * m.tempC, 0)
      expect(count).toBe(inHour.length)
      expect(sumC / count).toBeCloseTo(inHour.reduce((sum, t) => sum + t, 0) / inHour.length, 6)
      expect(all.map((m) => m.atMs)).toEqual(all.map((m) => m.atMs).toSorted((a, b) => a - b))
    }),
    { numRuns: 40, seed: 1 },
  )
})

test('what is older than an hour goes, and a long day keeps a few hundred means', () => {
  let means = NO_MEANS
  for (let s = 0; s < 3 * HOUR_S; s++)
    means = withReading(means, { atMs: s * 1000, tempC: s < HOUR_S ? 20 : 70 })
  expect(means.old.length + means.closed.length).toBeLessThan(250)
  expect(Math.min(...[...means.old, ...means.closed].map((m) => m.tempC))).toBe(70)
})
