import { expect, test } from 'vitest'
import { fitCooling } from '#core/bath/cooling'
import { senseHeat } from '#core/bath/heat-sense'
import { type ForecastAsk, forecastPot, guessOf } from '#core/bath/pot-forecast'
import { learnFrom } from '#core/bath/learn'
import { guessPot } from '#core/bath/pot-belief'
import { probeC, startPot, stepPot } from '#core/bath/simulated-pot'
import { evening, learningEvening } from '../../kit/stove-evening.ts'
import { labPot, labStart, labWaterC } from '../../kit/stove-lab.ts'

const NOW = Date.UTC(2026, 2, 12, 14)
const MIN = 60_000
const VESSEL = { litres: 20, surroundingsC: 18, burner: { kind: 'coil', dialMax: 10, ratedW: 2400 } } as const

const ask = (more: Partial<ForecastAsk>): ForecastAsk => ({
  atMs: NOW,
  belief: guessPot(VESSEL),
  bath: { waterC: 50, rateCPerMin: 1 },
  dial: 10,
  lid: 'on',
  settledSinceMs: NOW - 20 * MIN,
  goal: { kind: 'window', lowC: 66, highC: 70 },
  ...more,
})

test('a bath that rises steadily reaches its window when its rate says so, also in a pot not known', () => {
  for (const belief of [guessPot(VESSEL), guessOf(null)]) {
    const told = forecastPot(ask({ belief }))
    // 16 °C at 1 °C a minute, a little slower as the losses grow.
    expect((told.reachesWindowMs! - NOW) / MIN).toBeGreaterThan(15.5)
    expect((told.reachesWindowMs! - NOW) / MIN).toBeLessThan(19)
  }
})

test('without a noted dial the present heat is taken to go on', () => {
  const told = forecastPot(ask({ dial: null }))
  expect((told.reachesWindowMs! - NOW) / MIN).toBeGreaterThan(15.5)
  expect((told.reachesWindowMs! - NOW) / MIN).toBeLessThan(19)
})

test('a bath whose dial is off never reaches its window', () => {
  const told = forecastPot(ask({ dial: 0, bath: { waterC: 50, rateCPerMin: -0.1 } }))
  expect(told.reachesWindowMs).toBeNull()
  expect(told.peakC!).toBeLessThan(50.2)
})

test('no forecast and no edge of its band lies over the boil', () => {
  const told = forecastPot(ask({ bath: { waterC: 90, rateCPerMin: 1 } }))
  // IAPWS-IF97 at 101.325 kPa: 99.97 °C.
  expect(Math.max(...told.band90C.map(([, , highC]) => highC))).toBeLessThan(99.98)
  expect(told.band90C.every(([, lowC, highC]) => lowC <= highC)).toBe(true)
})

test('a dial that must have been noted wrongly does not bend the forecast', () => {
  const told = forecastPot(ask({ dial: 0.5 }))
  expect((told.reachesWindowMs! - NOW) / MIN).toBeLessThan(20)
})

test('a bath that drifts up tells when it leaves its window, and has nothing left to reach', () => {
  const told = forecastPot(ask({ bath: { waterC: 69, rateCPerMin: 0.1 }, dial: null }))
  expect(told.reachesWindowMs).toBeNull()
  expect((told.leavesWindowMs! - NOW) / MIN).toBeGreaterThan(8)
  expect((told.leavesWindowMs! - NOW) / MIN).toBeLessThan(14)
})

test('the peak says how far a heavy plate carries the bath after it was turned off', () => {
  const vessel = {
    litres: 10,
    surroundingsC: 18,
    burner: { kind: 'plate', dialMax: 10, ratedW: 1800 },
  } as const
  const pot = stepPot(startPot({ vessel, startC: 40 }), 1500, { dial: 9 })
  const bath = { waterC: pot.waterC, rateCPerMin: (stepPot(pot, 60).waterC - pot.waterC) * 1 }
  let later = stepPot(pot, 0, { dial: 0 })
  let peakC = 0
  for (let s = 0; s < 3600; s += 20) {
    later = stepPot(later, 20)
    peakC = Math.max(peakC, later.waterC)
  }
  const told = forecastPot(ask({ belief: guessPot(vessel), bath, dial: 0, settledSinceMs: NOW }))
  expect(peakC - pot.waterC).toBeGreaterThan(3)
  expect(Math.abs(told.peakC! - peakC)).toBeLessThan(1)
})

test('a cool-down is foretold from the pot at first, and from its own curve once there is one', () => {
  let pot = startPot({ vessel: VESSEL, startC: 80, lossFactor: 1.6 })
  const points: { atMs: number; tempC: number }[] = []
  let truth: number | null = null
  const seen: { atMs: number; waterC: number; rateCPerMin: number }[] = []
  for (let min = 0; truth === null; min++) {
    const before = pot.waterC
    pot = stepPot(pot, 60)
    points.push({ atMs: NOW + min * MIN, tempC: probeC(pot) })
    if (min === 8 || min === 60)
      seen.push({ atMs: NOW + min * MIN, waterC: pot.waterC, rateCPerMin: pot.waterC - before })
    if (pot.waterC <= 40) truth = NOW + min * MIN
  }
  for (const [i, { atMs, ...bath }] of seen.entries()) {
    const cooling = fitCooling(
      points.filter((p) => p.atMs <= atMs),
      { vessel: VESSEL, lid: 'on' },
    )
    const told = forecastPot(
      ask({
        atMs,
        bath,
        dial: 0,
        settledSinceMs: NOW - 3600_000,
        goal: { kind: 'cool', coolToC: 40 },
        cooling,
      }),
    )
    expect(Math.abs((told.reachesCoolToMs! - atMs) / (truth - atMs) - 1)).toBeLessThan(i === 0 ? 0.3 : 0.06)
    expect(told.reachesCoolTo90Ms![0]).toBeLessThan(truth)
    expect(told.reachesCoolTo90Ms![1]).toBeGreaterThan(truth)
  }
})

test('of a pot that nobody described the band holds an open small one and a lidded large one', () => {
  for (const [litres, lid] of [
    [9, 'off'],
    [55, 'on'],
  ] as const) {
    const pot = stepPot(startPot({ vessel: { litres, burner: { dialMax: 10 } }, startC: 75 }), 0, { lid })
    const bath = { waterC: 75, rateCPerMin: stepPot(pot, 60).waterC - 75 }
    const told = forecastPot(
      ask({ belief: guessOf(null), lid: null, bath, dial: 0, goal: { kind: 'cool', coolToC: 40 } }),
    )
    const hours = stepPot(pot, 2 * 3600).waterC
    const [, lowC, highC] = told.band90C.find(([atMs]) => atMs >= NOW + 120 * MIN)!
    expect(lowC).toBeLessThan(hours)
    expect(highC).toBeGreaterThan(hours)
  }
})

test('a bath that is cool enough already says so', () => {
  const told = forecastPot(ask({ goal: { kind: 'cool', coolToC: 60 }, dial: 0 }))
  expect(told.reachesCoolToMs).toBe(NOW)
})

test('the band of a learned pot holds what the bath then does', () => {
  const pot = labPot(20, 'coil', 11)
  const belief = learnFrom(guessPot(pot.vessel), learningEvening(pot).trace).belief
  const start = labStart(pot, 30)
  const warm = evening(pot, [{ dial: 8, lid: 'on', minutes: 20 }], start)
  const rest = evening(pot, [{ dial: 8, lid: 'on', minutes: 25 }], warm.end)
  const was = warm.truth.at(-19)!.tempC
  const bath = { waterC: labWaterC(warm.end), rateCPerMin: (labWaterC(warm.end) - was) / 3 }
  const told = forecastPot(ask({ belief, bath, dial: 8, settledSinceMs: NOW - 20 * MIN }))
  for (const afterMin of [5, 10, 20]) {
    const truth = rest.truth.find((p) => p.atMs >= warm.end.atS * 1000 + afterMin * MIN)!.tempC
    const [, lowC, highC] = told.band90C.find(([atMs]) => atMs >= NOW + afterMin * MIN)!
    expect(lowC).toBeLessThan(truth)
    expect(highC).toBeGreaterThan(truth)
  }
})

const LEARNED = learnFrom(guessPot(VESSEL), (() => learningEvening(labPot(20, 'coil', 2)).trace)()).belief
const course = { dial: 0, lid: 'on', roomC: 18 } as const

test('a pot that cools twice as fast as it should is asked for its lid', () => {
  expect(senseHeat(LEARNED, { waterC: 75, rateCPerMin: -0.35 }, course)).toMatchObject({ kind: 'loses-more' })
  expect(senseHeat(LEARNED, { waterC: 75, rateCPerMin: -0.13 }, course)).toEqual({ kind: 'as-expected' })
})

test('a pot whose dial is on and that does not rise gets no heat', () => {
  expect(senseHeat(LEARNED, { waterC: 30, rateCPerMin: 0 }, { ...course, dial: 10 })).toMatchObject({
    kind: 'no-heat',
  })
})
