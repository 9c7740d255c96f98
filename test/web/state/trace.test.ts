import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { traceGaps } from '../../../web/state/trace-gaps.ts'
import { type TracePoint, addPoint, mergePoints } from '../../../web/state/trace-points.ts'

const HOUR = 3_600_000
const traces = fc
  .uniqueArray(fc.tuple(fc.integer({ min: 0, max: HOUR }), fc.double({ min: 10, max: 100, noNaN: true })), {
    maxLength: 300,
    selector: ([ms]) => ms,
  })
  .map((points): TracePoint[] => points.sort((a, b) => a[0] - b[0]))

test('points added in any order make the same trace, each time once', () => {
  fc.assert(
    fc.property(traces, fc.infiniteStream(fc.nat()), (points, dice) => {
      const shuffled = points.map((p) => ({ p, at: dice.next().value as number })).sort((a, b) => a.at - b.at)
      const built = shuffled.reduce<readonly TracePoint[]>(
        (t, { p }) => addPoint(addPoint(t, p, HOUR), p, HOUR),
        [],
      )
      expect(built).toEqual(points)
    }),
  )
})

test('a live trace drops what is older than it shows', () => {
  const long = addPoint([[0, 20]], [HOUR, 60], HOUR)
  expect(long).toHaveLength(2)
  expect(addPoint(long, [HOUR + 1, 61], HOUR)[0]).toEqual([HOUR, 60])
})

test('what was fetched and what came live join by time; the live value stays', () => {
  expect(
    mergePoints(
      [
        [1, 20],
        [3, 22],
      ],
      [
        [2, 21],
        [3, 23],
      ],
    ),
  ).toEqual([
    [1, 20],
    [2, 21],
    [3, 23],
  ])
})

test('more than a minute without a reading is a gap, also at the ends', () => {
  const points: TracePoint[] = [
    [60_000, 80],
    [120_000, 80],
    [190_000, 80],
  ]
  expect(traceGaps(points, 0, 250_000)).toEqual([{ fromMs: 120_000, toMs: 190_000 }])
  expect(traceGaps([], 0, 61_000)).toEqual([{ fromMs: 0, toMs: 61_000 }])
  expect(traceGaps([], 0, 60_000)).toEqual([])
})
