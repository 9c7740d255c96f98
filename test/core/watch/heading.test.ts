import * as fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { seeded } from '../../kit/seeded.ts'
import { WatchDay, at, hold, plan } from '../../kit/watch-day.ts'

const [LOW, HIGH, CEILING] = [64, 70, 75]
const STAGE = hold({ windowC: [LOW, HIGH], ceilingC: CEILING, holdMin: 300 })
/** Where a bath that comes up should end: two thirds up the window. */
const AIM = 68

interface Probe {
  readonly everyS: number
  readonly quantumC: number
  readonly noiseC: number
  readonly seed: number
}
type Knot = readonly [min: number, tempC: number]

const probe = (steps: readonly number[]) =>
  fc.record<Probe>({
    everyS: fc.constantFrom(1, 5, 10, 30),
    quantumC: fc.constantFrom(...steps),
    noiseC: fc.constantFrom(0, 0.02, 0.05),
    seed: fc.nat(),
  })

/** A bath on straight lines, as a probe shows it. */
function course(knots: readonly Knot[], { everyS, quantumC, noiseC, seed }: Probe): WatchDay {
  const day = new WatchDay().pot('heron', '08:00').batch('heron', '08:00', plan(STAGE))
  day.note('heron', '08:00', 'stage:dye')
  const random = seeded(seed)
  for (let s = 0; s <= knots.at(-1)![0] * 60; s += everyS) {
    const shownC = straight(knots, s / 60) + noiseC * random.normal()
    const tempC = quantumC === 0 ? shownC : Math.round(shownC / quantumC) * quantumC
    day.read('heron', at('08:00') + s * 1000, Number(tempC.toFixed(4)))
  }
  return day
}

function straight(knots: readonly Knot[], min: number): number {
  const next = Math.max(
    1,
    knots.findIndex(([m]) => m >= min),
  )
  const [[fromMin, fromC], [toMin, toC]] = [knots[next - 1]!, knots[next]!]
  return fromC + ((toC - fromC) * (min - fromMin)) / (toMin - fromMin)
}

/** Minutes of the day at which an alarm was raised. */
const raisedMin = (day: WatchDay, alarm: string) =>
  day
    .alarms(alarm)
    .filter((a) => a.change === 'raised')
    .map((a) => (a.atMs - at('08:00')) / 60_000)

/** A probe that counts in half degrees shows the end of a ramp when its next step does not come. */
const seenMin = ({ everyS, quantumC }: Probe) => (quantumC >= 0.5 ? 1.5 : 0.75) + (2 * everyS) / 60

const ANY_PROBE = probe([0, 0.0625, 0.1, 0.5])
const FINE_PROBE = probe([0, 0.0625, 0.1])
const ramp = fc.double({ min: 0.5, max: 2, noNaN: true })

/** From 50 °C up at a rate in °C/min, and 40 minutes flat. */
function upAndFlat(rate: number, flatC: number, of: Probe) {
  const upMin = (flatC - 50) / rate
  const day = course(
    [
      [0, 50],
      [upMin, flatC],
      [upMin + 40, flatC],
    ],
    of,
  )
  return { day, upMin }
}

describe('a bath that comes up and then stands still', () => {
  test('up to where it should end it raises nothing at all', () => {
    const flat = fc.double({ min: LOW + 0.5, max: AIM - 0.5, noNaN: true })
    fc.assert(
      fc.property(ramp, flat, ANY_PROBE, (rate, flatC, of) => {
        const { day } = upAndFlat(rate, flatC, of)
        expect(day.log().filter((l) => l.endsWith(' raised'))).toEqual([])
      }),
      { numRuns: 6, seed: 51 },
    )
  })

  test('anywhere in its window it is heading nowhere', () => {
    const flat = fc.double({ min: AIM, max: HIGH - 0.5, noNaN: true })
    fc.assert(
      fc.property(ramp, flat, ANY_PROBE, (rate, flatC, of) => {
        const { day, upMin } = upAndFlat(rate, flatC, of)
        for (const alarm of ['heading-above-window', 'heading-above-ceiling'])
          for (const min of raisedMin(day, alarm)) expect(min - upMin).toBeLessThan(seenMin(of))
      }),
      { numRuns: 6, seed: 52 },
    )
  })

  test('a quick step up in the hold that ends flat is no course to the ceiling', () => {
    const step = fc.double({ min: 1, max: 2.3, noNaN: true })
    fc.assert(
      fc.property(step, FINE_PROBE, (stepC, of) => {
        const endMin = 30 + stepC / 5
        const day = course(
          [
            [0, 56],
            [10, 66],
            [30, 66],
            [endMin, 66 + stepC],
            [60, 66 + stepC],
          ],
          { ...of, everyS: Math.min(10, of.everyS) },
        )
        expect(raisedMin(day, 'heading-above-ceiling')).toEqual([])
      }),
      { numRuns: 6, seed: 53 },
    )
  })
})

describe('a bath that drifts out by the top', () => {
  test('is called two minutes before at the least, wherever it has five to go', () => {
    const drift = fc.double({ min: 0.05, max: 1, noNaN: true })
    fc.assert(
      fc.property(drift, FINE_PROBE, (rate, of) => {
        const fromC = HIGH - Math.max(1.5, 5 * rate)
        const crossMin = 30 + (HIGH - fromC) / rate
        const day = course(
          [
            [0, fromC],
            [30, fromC],
            [crossMin + 2, HIGH + 2 * rate],
          ],
          of,
        )
        const leadMin = raisedMin(day, 'heading-above-window').map((min) => crossMin - min)
        expect(leadMin).toHaveLength(1)
        expect(leadMin[0]).toBeGreaterThanOrEqual(2)
        expect(leadMin[0]).toBeLessThan(15)
      }),
      { numRuns: 6, seed: 54 },
    )
  })
})

describe('a bath that drifts so slowly that a probe of half degrees takes a quarter of an hour for a step', () => {
  test.each([0.03, 0.04])('at %f °C a minute is called once, minutes before it is out', (rate) => {
    for (const startC of [64.9, 65.2]) {
      const crossMin = 10 + (HIGH - startC) / rate
      const knots = [
        [0, startC],
        [10, startC],
        [crossMin + 1, HIGH + rate],
      ] as const
      const day = course(knots, { everyS: 10, quantumC: 0.5, noiseC: 0, seed: 1 })
      const leadMin = raisedMin(day, 'heading-above-window').map((min) => crossMin - min)
      expect(leadMin).toHaveLength(1)
      expect(leadMin[0]).toBeGreaterThanOrEqual(2)
      expect(leadMin[0]).toBeLessThan(25)
    }
  })
})

describe('a bath at the top of its window', () => {
  test('creeps over it by 0.03 °C a minute and is called within two minutes, though its probe trembles', () => {
    const crossMin = 20 + 1 / 0.03
    const knots = [
      [0, HIGH - 1],
      [20, HIGH - 1],
      [crossMin + 5, HIGH + 0.15],
    ] as const
    for (const seed of [1, 2, 3]) {
      const day = course(knots, { everyS: 1, quantumC: 0.0625, noiseC: 0.03, seed })
      const [min] = raisedMin(day, 'above-window')
      expect(min! - crossMin).toBeLessThanOrEqual(2)
      expect(min! - crossMin).toBeGreaterThan(0)
    }
  })

  test('creeps over it past a still probe that counts in tenths and is called within two minutes', () => {
    for (const [rate, fromC] of [
      [0.04, HIGH - 1.02],
      [0.06, HIGH - 1.07],
    ] as const) {
      const crossMin = 20 + (HIGH - fromC) / rate
      const knots = [
        [0, fromC],
        [20, fromC],
        [crossMin + 4, HIGH + 4 * rate],
      ] as const
      const [min] = raisedMin(course(knots, { everyS: 1, quantumC: 0.1, noiseC: 0, seed: 1 }), 'above-window')
      expect(min! - crossMin).toBeLessThanOrEqual(2)
      expect(min! - crossMin).toBeGreaterThan(0.75)
    }
  })

  test('is called a minute after it crossed, however long it took to be sure of that', () => {
    const rate = fc.double({ min: 0.05, max: 1.5, noNaN: true })
    fc.assert(
      fc.property(rate, (r) => {
        const crossMin = 20 + 2 / r
        const knots = [
          [0, HIGH - 2],
          [20, HIGH - 2],
          [crossMin + 3, HIGH + 3 * r],
        ] as const
        const day = course(knots, { everyS: 1, quantumC: 0, noiseC: 0, seed: 1 })
        const [raised] = day.alarms('above-window')
        expect((raised!.atMs - at('08:00')) / 60_000 - crossMin).toBeGreaterThan(0.99)
        expect((raised!.atMs - at('08:00')) / 60_000 - crossMin).toBeLessThan(1.1)
        expect(Math.abs((raised!.sinceMs - at('08:00')) / 60_000 - crossMin)).toBeLessThan(0.15)
      }),
      { numRuns: 6, seed: 55 },
    )
  })

  test('and held exactly there it is inside, though its probe trembles', () => {
    const knots = [
      [0, HIGH],
      [60, HIGH],
    ] as const
    for (const seed of [1, 2, 3, 4]) {
      const day = course(knots, { everyS: 5, quantumC: 0.0625, noiseC: 0.03, seed })
      expect(raisedMin(day, 'above-window')).toEqual([])
    }
  })
})

/** Rising at 1 °C a minute past where it should end; turned down or not when it was told to. */
function comingUp(turnedDown: boolean): WatchDay {
  const stage = hold({ windowC: [LOW, HIGH], ceilingC: 71 })
  const day = new WatchDay().pot('heron', '08:00').batch('heron', '08:00', plan(stage))
  day.note('heron', '08:00', 'stage:dye dial:9').line('heron', [
    ['08:00', 50],
    ['08:17', 67],
  ])
  if (turnedDown) day.note('heron', '08:17', 'dial:3')
  return day.line('heron', [
    ['08:17:01', 67],
    ['08:19', 68.9],
  ])
}

test('a dial turned down for "turn down now" is given its two minutes to show', () => {
  expect(raisedMin(comingUp(false), 'heading-above-ceiling')).toHaveLength(1)
  expect(raisedMin(comingUp(true), 'heading-above-ceiling')).toEqual([])
})

function turnedUp(word: string): WatchDay {
  return new WatchDay()
    .pot('heron', '08:00')
    .batch('heron', '08:00', plan(STAGE))
    .note('heron', '08:00', 'stage:dye dial:3')
    .line('heron', [
      ['08:00', 66],
      ['08:30', 66],
    ])
    .note('heron', '08:30', word)
    .line('heron', [
      ['08:30:01', 66],
      ['08:30:40', 66],
      ['08:33', 69.5],
    ])
}

test('a burner noted as turned up is the reason at once: the call does not wait out its delay a second time', () => {
  const [known] = raisedMin(turnedUp('dial:9'), 'heading-above-window')
  const [unknown] = raisedMin(turnedUp('stir'), 'heading-above-window')
  expect(known).toBeGreaterThanOrEqual(31)
  expect(known).toBeLessThan(31.25)
  expect(unknown! - known!).toBeGreaterThan(0.5)
})

/** Calls of a bath that comes to the boil at 90 °C, as water does under the 70 kPa of 3,000 m (US Standard Atmosphere 1976, IAPWS-IF97). */
function callsToTheBoil(altitudeM: number): number {
  const vessel = { litres: 20, altitudeM, burner: { dialMax: 10 } }
  const day = new WatchDay().pot('heron', '08:00', { vessel })
  day.batch('heron', '08:00', plan(hold({ windowC: [84, 88], ceilingC: 93 })))
  day.note('heron', '08:00', 'stage:dye').line('heron', [
    ['08:00', 85],
    ['08:20', 85],
    ['08:25', 90],
    ['08:30', 90],
  ])
  return raisedMin(day, 'heading-above-ceiling').length
}

test('high up a bath that comes to the boil heads for no limit that water does not reach', () => {
  expect(callsToTheBoil(3000)).toBe(0)
  expect(callsToTheBoil(0)).toBe(1)
})
