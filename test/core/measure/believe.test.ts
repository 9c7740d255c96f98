import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { believe, startBelief } from '#core/measure/believe'
import type { Reading, Sample } from '#core/measure/reading'

const asRead = (rawC: number) => rawC
const START_MS = 1_700_000_000_000

/** Judges a day of [seconds, raw °C] pairs and gives one word for each. */
function day(pairs: readonly (readonly [number, number])[]): string[] {
  return fold(
    pairs.map(([s, rawC]) => ({ kind: 'temp', probe: 'wren', atMs: START_MS + s * 1000, rawC })),
  ).map((r) => (r.kind === 'fault' ? r.fault : r.verdict))
}

function fold(samples: readonly Sample[]): Reading[] {
  let state = startBelief()
  return samples.map((sample) => {
    const step = believe(state, sample, asRead)
    state = step.state
    return step.reading
  })
}

// The data sheet's table gives 0550h = 85 °C as the power-on value; what to make of it is common practice.
test('85.000 after a silence with the neighbour far off is a start-up value', () => {
  expect(
    day([
      [0, 79.3],
      [1, 79.4],
      [21, 85],
      [22, 79.6],
      [23, 79.6],
    ]),
  ).toEqual(['good', 'good', 'start-up', 'good', 'good'])
})

test('85.000 after a night of silence is a start-up value too, however often it comes', () => {
  expect(
    day([
      [0, 53.7],
      [1, 53.7],
      [5100, 85],
      [5101, 85],
      [5102, 85],
      [5103, 48.9],
    ]),
  ).toEqual(['good', 'good', 'start-up', 'start-up', 'start-up', 'good'])
})

test('a bath that climbs through 85 °C is real, exactly 85.000 included', () => {
  expect(
    day([
      [0, 84.6],
      [10, 84.9],
      [15, 85],
      [20, 85.1],
      [30, 85.4],
    ]),
  ).toEqual(['good', 'good', 'good', 'good', 'good'])
})

test('85.000 as the very first value is set aside, and believed when the next one agrees', () => {
  expect(
    day([
      [0, 85],
      [1, 21.2],
    ]),
  ).toEqual(['start-up', 'good'])
  expect(
    day([
      [0, 85],
      [1, 85.06],
      [2, 85],
    ]),
  ).toEqual(['start-up', 'good', 'good'])
})

test('−127, an exact zero after a warm bath and what no bath can have are faults', () => {
  expect(
    day([
      [0, 80],
      [1, -127],
      [2, 0],
      [3, 176],
      [4, -40],
      [5, 80.1],
    ]),
  ).toEqual(['good', 'not-connected', 'not-connected', 'impossible', 'impossible', 'good'])
})

test('an exact zero is believed in an ice bath that the probe was seen to reach', () => {
  expect(
    day([
      [0, 18],
      [10, 6.2],
      [20, 1.4],
      [30, 0],
      [40, 0],
    ]),
  ).toEqual(['good', 'good', 'good', 'good', 'good'])
})

test('a lone spike is a jump and its neighbours are believed', () => {
  expect(
    day([
      [0, 80.1],
      [1, 80.2],
      [2, 60],
      [3, 80.4],
      [4, 95],
      [5, 80.5],
    ]),
  ).toEqual(['good', 'good', 'jump', 'good', 'jump', 'good'])
})

test('a real jump is believed from its second value on', () => {
  expect(
    day([
      [0, 20],
      [1, 20],
      [2, 64],
      [3, 66],
      [4, 67],
    ]),
  ).toEqual(['good', 'good', 'jump', 'good', 'good'])
})

test('after a gap any bath is believed at once', () => {
  expect(
    day([
      [0, 71],
      [1, 71],
      [600, 22],
    ]),
  ).toEqual(['good', 'good', 'good'])
})

// Calculated for a 6 mm probe lifted from 88.1 °C into air, time constant 68 s toward 30 °C, and put back.
test('a probe pulled out of the bath and put back is no jump: the watch judges it', () => {
  const out = Array.from({ length: 91 }, (_, s): [number, number] => [s, 30 + 58.1 * Math.exp(-s / 68)])
  const last = out.at(-1)![1]
  const back = Array.from({ length: 60 }, (_, s): [number, number] => [
    91 + s,
    88.1 + (last - 88.1) * Math.exp(-(s + 1) / 10),
  ])
  expect(new Set(day([...out, ...back]))).toEqual(new Set(['good']))
  const everyTen = [...out, ...back].filter(([s]) => s % 10 === 0)
  expect(new Set(day(everyTen))).toEqual(new Set(['good']))
})

test('a second value for the same time is told apart, and does not disturb the first', () => {
  expect(
    day([
      [0, 70],
      [0, 71],
      [1, 70.1],
    ]),
  ).toEqual(['good', 'second-value', 'good'])
})

test('a backlog that arrives beside live readings is judged along its own line', () => {
  expect(
    day([
      [3600, 40],
      [0, 80],
      [3601, 40],
      [1, 80.1],
      [2, 99],
      [3602, 39.9],
      [3, 80.2],
    ]),
  ).toEqual(['good', 'good', 'good', 'good', 'jump', 'good', 'good'])
})

test('the correction of that moment is applied to what is believed', () => {
  const sample: Sample = { kind: 'temp', probe: 'wren', atMs: START_MS, rawC: 70 }
  const { reading } = believe(startBelief(), sample, (rawC, atMs) => rawC + (atMs === START_MS ? -0.5 : 0))
  expect(reading).toMatchObject({ rawC: 70, tempC: 69.5 })
})

test('anything a probe can say is judged, and a believed value is always one that a bath can have', () => {
  const anyC = fc.oneof(fc.double(), fc.constantFrom(85, 0, -127, 9.91e37), fc.double({ min: 0, max: 100 }))
  const times = fc.array(fc.tuple(fc.integer({ min: -5_000, max: 100_000 }), anyC), { maxLength: 60 })
  fc.assert(
    fc.property(times, (pairs) => {
      const readings = fold(
        pairs.map(([dtMs, rawC], i) => ({ kind: 'temp', probe: 'p', atMs: START_MS + i * 500 + dtMs, rawC })),
      )
      const believed = readings.flatMap((r) => (r.kind === 'temp' && r.verdict === 'good' ? [r.tempC] : []))
      expect(believed.filter((tempC) => !(tempC >= -20 && tempC <= 110))).toEqual([])
    }),
  )
})

test('a bath that moves as water can is believed throughout', () => {
  const walk = fc.array(
    fc.tuple(fc.integer({ min: 200, max: 20_000 }), fc.double({ min: -1, max: 1, noNaN: true })),
    {
      minLength: 2,
      maxLength: 80,
    },
  )
  fc.assert(
    fc.property(fc.double({ min: 30, max: 70, noNaN: true }), walk, (startC, steps) => {
      let s = 0
      let tempC = startC + 0.01
      const pairs = steps.map(([dtMs, unit]): [number, number] => {
        s += dtMs / 1000
        tempC = Math.min(84, Math.max(10, tempC + (unit * 2.4 * dtMs) / 60_000))
        return [s, tempC]
      })
      expect(new Set(day(pairs))).toEqual(new Set(['good']))
    }),
  )
})

test('a bath that stands at exactly 85.000 from the first is believed after ten seconds', () => {
  const verdicts = day(Array.from({ length: 13 }, (_, s) => [s, 85] as const))
  expect(verdicts.slice(0, 10).every((v) => v === 'start-up')).toBe(true)
  expect(verdicts.slice(10)).toEqual(['good', 'good', 'good'])
})

/** What becomes of an 85.000 half a minute after the bath stood at this, °C. */
const afterHalfAMinuteAt = (rawC: number) =>
  day([
    [0, rawC],
    [30, rawC],
    [60, 85],
  ])[2]

// 4 °C a minute is calculated (9 kW under 20 L give 2.4), no source.
test('85.000 is real when a bath can have risen there meanwhile, and no start-up value within the noise of 2 °C', () => {
  expect(afterHalfAMinuteAt(81.1)).toBe('good')
  expect(afterHalfAMinuteAt(80.9)).toBe('start-up')
})

test('one gap hardly moves what counts as the usual time between two values', () => {
  // Every 4 s, then a gap of 59 s: the usual time is 4.4 s at most, so 13.5 s without a value are a silence again.
  expect(
    day([
      [0, 40],
      [4, 40],
      [63, 40],
      [76.5, 99],
    ])[3],
  ).toBe('good')
  expect(
    day([
      [0, 40],
      [4, 40],
      [63, 40],
      [76, 99],
    ])[3],
  ).toBe('jump')
})
