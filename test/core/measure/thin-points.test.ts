import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { thinPoints } from '#core/measure/thin-points'

type Point = readonly [atMs: number, tempC: number]

const traces = fc
  .uniqueArray(fc.tuple(fc.integer({ min: 0, max: 5000 }), fc.integer({ min: 0, max: 100 })), {
    selector: ([atMs]) => atMs,
    maxLength: 200,
  })
  .map((points) => points.toSorted((a, b) => a[0] - b[0]))

/** The same by its definition alone: each slot sorted by temperature, its two ends by time. */
function naive(points: readonly Point[], most: number): readonly Point[] {
  const slots = Math.max(1, Math.floor(most / 2))
  const startMs = points[0]![0]
  const slotMs = (points.at(-1)![0] - startMs + 1) / slots
  return Array.from({ length: slots }, (_, i) => {
    const own = points.filter(([atMs]) => Math.floor((atMs - startMs) / slotMs) === i)
    const low = own.toSorted((a, b) => a[1] - b[1] || a[0] - b[0])[0]
    const high = own.toSorted((a, b) => b[1] - a[1] || a[0] - b[0])[0]
    return [...new Set([low, high])].filter((point) => point !== undefined).sort((a, b) => a[0] - b[0])
  }).flat()
}

test('property: what is kept is the lowest and the highest of each slot, in order of time', () => {
  fc.assert(
    fc.property(traces, fc.integer({ min: 2, max: 80 }), (points, most) => {
      const thin = thinPoints(points, most)
      expect(thin.length).toBeLessThanOrEqual(most)
      expect(thin).toEqual(points.length <= most ? points : naive(points, most))
    }),
  )
})

/** °C at a second of half a day: calm but for one peak and one dip. */
const temp = (s: number) => (s === 20_000 ? 99 : s === 30_000 ? 12 : 80 + (s % 7) / 10)

test('one peak and one dip of a second in half a day are not drawn away', () => {
  const trace = Array.from({ length: 43_200 }, (_, s): Point => [s * 1000, temp(s)])
  const temps = new Set(thinPoints(trace, 1200).map(([, tempC]) => tempC))
  expect([temps.has(99), temps.has(12)]).toEqual([true, true])
})

test('a short trace comes back as it is, and none as none', () => {
  const short: readonly Point[] = [
    [0, 80],
    [1000, 81],
  ]
  expect(thinPoints(short, 2)).toBe(short)
  expect(thinPoints([], 2)).toEqual([])
})
