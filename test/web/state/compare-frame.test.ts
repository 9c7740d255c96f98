import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { compareFrame } from '../../../web/state/compare-frame.ts'

const point = fc.tuple(
  fc.integer({ min: -7_200_000, max: 90_000_000 }),
  fc.integer({ min: -50, max: 1050 }).map((t) => t / 10),
)
const batch = fc.record({
  windowC: fc.constant(null),
  points: fc.array(point, { minLength: 1, maxLength: 30 }),
})

test('every point lies inside the frame, and the ticks do too, round and not too many', () => {
  fc.assert(
    fc.property(fc.array(batch, { minLength: 1, maxLength: 6 }), (batches) => {
      const frame = compareFrame(batches, Infinity)!
      for (const [ms, tempC] of batches.flatMap((b) => b.points)) {
        expect(ms / 60_000).toBeGreaterThanOrEqual(frame.fromMin)
        expect(ms / 60_000).toBeLessThanOrEqual(frame.toMin)
        expect(tempC).toBeGreaterThan(frame.lowC)
        expect(tempC).toBeLessThan(frame.highC)
      }
      expect(frame.ticksMin.length).toBeLessThanOrEqual(9)
      for (const tick of frame.ticksMin) expect(tick >= frame.fromMin && tick <= frame.toMin).toBe(true)
    }),
  )
})

test('what comes after the wanted hours is left out, and nothing is drawn of nothing', () => {
  const batches = [
    {
      windowC: [65, 70] as const,
      points: [
        [0, 30],
        [3_600_000, 68],
        [36_000_000, 20],
      ] as const,
    },
  ]
  expect(compareFrame(batches, 120)).toMatchObject({ fromMin: 0, toMin: 60, lowC: 29, highC: 71 })
  expect(compareFrame([{ windowC: null, points: [] }], 120)).toBeNull()
})
