import { expect, test } from 'vitest'
import { type SeenStage, whatCame } from '#core/bath/judge-claim'
import type { PotForecast } from '#core/bath/pot-forecast'
import type { PotEvent } from '#core/bath/pot-trace'
import { touchesOf } from '#core/bath/seen-stage'
import { claimsNow, isNews, type ToldClaim } from '#core/bath/told-claim'

const MIN = 60_000
const WINDOW = [66, 72] as const

/** A way along a straight line with a band of one degree to each side, a point every five minutes for three hours. */
function straight(fromC: number, cPerMin: number, more: Partial<PotForecast> = {}): PotForecast {
  const band90C = Array.from({ length: 37 }, (_, i) => {
    const tempC = fromC + cPerMin * i * 5
    return [i * 5 * MIN, tempC - 1, tempC + 1] as const
  })
  const none = { reachesWindowMs: null, leavesWindowMs: null, reachesCoolToMs: null, reachesCoolTo90Ms: null }
  return { ...none, peakC: null, ...more, band90C }
}

const claim = (more: Partial<ToldClaim>): ToldClaim => ({
  kind: 'window',
  madeMs: 0,
  told: 40 * MIN,
  low90: 35 * MIN,
  high90: 45 * MIN,
  ...more,
})

/** A stage with a reading every half minute. */
const seen = (tempAt: (min: number) => number, more: Partial<SeenStage> = {}): SeenStage => ({
  readings: Array.from({ length: 361 }, (_, i) => ({ atMs: i * 30_000, tempC: tempAt(i / 2) })),
  touchedMs: [],
  endedMs: 180 * MIN,
  windowC: WINDOW,
  coolToC: null,
  ...more,
})

const peaks = (forecast: PotForecast) => claimsNow(forecast, 0, WINDOW).filter((c) => c.kind === 'peak')
const later = (told: number) => isNews(claim({ told }), claim({}))
const trembling = (min: number) => (min === 20 ? 70 : 46 + min / 2)
const rising = (min: number) => 46 + min / 2
const hill = (min: number) => 71 - Math.abs(min - 15) * 0.1
const at = (atMs: number, event: PotEvent) => ({ atMs, event })

test('a heat-up claims the window’s hour with the hours at which the edges of its band get there', () => {
  // 46 °C and half a degree a minute: 66 °C after 40 min, the edges a degree off two minutes sooner and later.
  const [window] = claimsNow(straight(46, 0.5, { reachesWindowMs: 40 * MIN }), 0, WINDOW)
  expect(window).toEqual(claim({ low90: 38 * MIN, high90: 42 * MIN }))
  expect(claimsNow(straight(46, 0.5, { reachesWindowMs: 40 * MIN }), 35 * MIN, WINDOW)).toEqual([])
})

test('a bath in its window claims where it stands in half an hour and when it leaves', () => {
  const found = claimsNow(straight(68, 0.05, { leavesWindowMs: 80 * MIN }), 0, WINDOW)
  expect(found.map((c) => [c.kind, c.told, c.low90, c.high90])).toEqual([
    ['leaves', 80 * MIN, 60 * MIN, 100 * MIN],
    ['drift', 69.5, 68.5, 70.5],
  ])
})

test('a peak is claimed once the way has its top within the hour, and not on the way to the boil', () => {
  const band = (tempAt: (min: number) => number): PotForecast => ({
    ...straight(0, 0),
    band90C: Array.from({ length: 37 }, (_, i) => [i * 5 * MIN, tempAt(i * 5) - 1, tempAt(i * 5) + 1]),
  })
  const coasting = band((min) => 68 + (min < 10 ? min * 0.3 : 3 - (min - 10) * 0.01))
  expect(peaks(coasting)).toEqual([{ kind: 'peak', madeMs: 0, told: 71, low90: 70, high90: 72 }])
  expect(peaks(straight(50, 0.6))).toEqual([])
})

test('a cool-down claims its hour with its range, and nothing without one', () => {
  const cool = { reachesCoolToMs: 90 * MIN, reachesCoolTo90Ms: [80 * MIN, 100 * MIN] as const }
  expect(claimsNow(straight(60, -0.3, cool), 0, null)).toEqual([
    { kind: 'cool', madeMs: 0, told: 90 * MIN, low90: 80 * MIN, high90: 100 * MIN },
  ])
  expect(claimsNow(straight(60, -0.3, { reachesCoolToMs: 90 * MIN }), 0, null)).toEqual([])
})

test('news is what the range given before did not cover; its bounds are covered', () => {
  expect([later(35 * MIN), later(45 * MIN), later(45 * MIN + 1)]).toEqual([false, false, true])
})

test('a claimed hour is held to the first of three readings running that are there', () => {
  expect(
    whatCame(
      claim({}),
      seen((min) => 46 + min / 2),
    ),
  ).toBe(40 * MIN)
  expect(whatCame(claim({}), seen(trembling))).toBe(40 * MIN)
})

test('a touch on the way makes a claim that can’t be judged; in the last tenth it changes little', () => {
  const touched = (min: number) => whatCame(claim({}), seen(rising, { touchedMs: [min * MIN] }))
  expect([touched(20), touched(35.5), touched(36), touched(39)]).toEqual([null, null, 40 * MIN, 40 * MIN])
  expect(whatCame(claim({ madeMs: 21 * MIN }), seen(rising, { touchedMs: [20 * MIN] }))).toBe(40 * MIN)
})

test('what has not come by the end of its range came too late, and counts with the last moment seen', () => {
  expect(
    whatCame(
      claim({}),
      seen(() => 60),
    ),
  ).toBe(180 * MIN)
  expect(
    whatCame(
      claim({}),
      seen(() => 60, { endedMs: 44 * MIN }),
    ),
  ).toBe(null)
})

test('a peak is judged once the bath has fallen from it, or the hour has passed', () => {
  const peak = claim({ kind: 'peak', told: 71, low90: 70, high90: 72 })
  // Mean of five readings around the top, half a minute apart: 71 − (0.1 + 0.05 + 0 + 0.05 + 0.1) / 5.
  expect(whatCame(peak, seen(hill))).toBeCloseTo(70.94, 6)
  expect(whatCame(peak, seen(hill, { touchedMs: [16 * MIN] }))).toBe(null)
  expect(whatCame(peak, seen(hill, { touchedMs: [25 * MIN] }))).toBeCloseTo(70.94, 6)
  expect(
    whatCame(
      peak,
      seen((min) => 66 + min / 60),
    ),
  ).toBeCloseTo(67, 1)
})

test('where the bath stands after half an hour is a mean of the minutes around it', () => {
  const drift = claim({ kind: 'drift', told: 70, low90: 69, high90: 71 })
  expect(
    whatCame(
      drift,
      seen((min) => 68 + min / 30),
    ),
  ).toBeCloseTo(69, 6)
  expect(
    whatCame(
      drift,
      seen(() => 68, { touchedMs: [29 * MIN] }),
    ),
  ).toBe(null)
})

test('only what changes the course of a bath is a touch', () => {
  const events = [
    at(1, { kind: 'dial', dial: 8 }),
    at(2, { kind: 'dial', dial: 8 }),
    at(3, { kind: 'stir' }),
    at(4, { kind: 'goods-in' }),
    at(5, { kind: 'lid', lid: 'on' }),
    at(6, { kind: 'lid', lid: 'off' }),
    at(7, { kind: 'dial', dial: 0 }),
  ]
  expect(touchesOf(events)).toEqual([1, 4, 6, 7])
})
