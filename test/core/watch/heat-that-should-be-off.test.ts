import { describe, expect, test } from 'vitest'
import type { Stage } from '#core/plan/plan'
import { seeded } from '../../kit/seeded.ts'
import { WatchDay, at, hold, plan } from '../../kit/watch-day.ts'

const COOL: Stage = { kind: 'cool', id: 'cool', title: 'Cool', coolToC: 30, additives: [] }
const SOAK: Stage = { kind: 'soak', id: 'soak', title: 'Soak', minutes: 120, additives: [] }
const MINUTE_MS = 60_000

const cooling = () =>
  new WatchDay()
    .pot('heron', '06:00')
    .batch('heron', '06:00', plan(COOL))
    .note('heron', '06:00', 'stage:cool dial:0')

/** A bath by minutes since 06:00, read through a probe that trembles and counts in tenths. */
function readTrembling(
  day: WatchDay,
  minutes: number,
  everyS: number,
  tempC: (min: number) => number,
): WatchDay {
  const random = seeded(7)
  for (let s = 0; s <= minutes * 60; s += everyS) {
    const trembled = tempC(s / 60) + random.between(-0.1, 0.1)
    day.read('heron', at('06:00') + s * 1000, Math.round(trembled * 10) / 10)
  }
  return day
}

const changesOf = (day: WatchDay, alarm: string) => day.alarms(alarm).map((a) => a.change)
const minutesOf = (day: WatchDay, alarm: string) =>
  day.alarms(alarm).map((a) => (a.atMs - at('06:00')) / MINUTE_MS)

/** Held at 60 °C by a low burner, by minutes. */
const levelsOut = (min: number) => 60 + 12 * Math.exp(-min / 60)

describe('not-cooling', () => {
  test.each([2, 30])('a bath that levels out at 60 °C rings once and goes on, read every %d s', (everyS) => {
    const day = readTrembling(cooling(), 300, everyS, levelsOut)
    expect(changesOf(day, 'not-cooling')).toEqual(['raised'])
  })

  test.each([1, 30])('that is found while the bath still falls, read every %d s', (everyS) => {
    const day = readTrembling(cooling(), 150, everyS, levelsOut)
    const [raisedMin] = minutesOf(day, 'not-cooling')
    expect(raisedMin).toBeLessThan(110)
  })

  test('and is over soon after the burner is off in earnest', () => {
    const day = readTrembling(cooling(), 240, 5, (min) =>
      min < 150 ? levelsOut(min) : 18 + (levelsOut(150) - 18) * Math.exp(-(min - 150) / 200),
    )
    expect(changesOf(day, 'not-cooling')).toEqual(['raised', 'cleared'])
    const endedMin = minutesOf(day, 'not-cooling')[1]!
    expect(endedMin).toBeGreaterThan(150)
    expect(endedMin).toBeLessThan(160)
  })

  test('a large wrapped pot that hardly loses anything is left alone', () => {
    // Toward a room of 18 °C with a time constant of 24 h: 0.04 °C a minute at first.
    const day = readTrembling(cooling(), 300, 30, (min) => 18 + 60 * Math.exp(-min / 1440))
    expect(changesOf(day, 'not-cooling')).toEqual([])
  })

  test('a bath that stands still on a low burner rings once and goes on', () => {
    const day = readTrembling(cooling(), 240, 5, (min) => (min < 30 ? 72 - 0.1 * min : 69))
    expect(changesOf(day, 'not-cooling')).toEqual(['raised'])
  })

  test('ends once the bath has fallen for five minutes, however far it had risen before', () => {
    const day = readTrembling(cooling(), 150, 2, (min) =>
      min < 60 ? 80 - 0.2 * min : min < 90 ? 68 + 0.5 * (min - 60) : 83 - 0.15 * (min - 90),
    )
    expect(changesOf(day, 'not-cooling')).toEqual(['raised', 'cleared'])
    const endedMin = minutesOf(day, 'not-cooling')[1]!
    expect(endedMin).toBeGreaterThanOrEqual(94)
    expect(endedMin).toBeLessThan(97)
  })

  test('says since when it rises, though the lowest reading of a trembling probe is older', () => {
    const day = readTrembling(cooling(), 90, 2, (min) =>
      min < 50 ? 72.5 - 0.05 * min : min < 60 ? 70 : 70 + 0.5 * (min - 60),
    )
    const [raised] = day.alarms('not-cooling')
    const sinceMin = (raised!.sinceMs - at('06:00')) / MINUTE_MS
    expect(sinceMin).toBeGreaterThan(59)
    expect(sinceMin).toBeLessThan(61.5)
  })
})

const HEATED = hold({ windowC: [58, 70], holdMin: 10 })
const soaking = () =>
  new WatchDay()
    .pot('heron', '06:00')
    .batch('heron', '06:00', plan(HEATED, SOAK))
    .note('heron', '06:00', 'stage:dye dial:6')

/** Turned off at 06:10 with a plate that carries it on. */
const soakCarried = (carriedC: number) =>
  soaking()
    .line('heron', [
      ['06:00', 60],
      ['06:10', 66],
    ])
    .note('heron', '06:10', 'stage:soak dial:0')
    .line('heron', [
      ['06:10:01', 66],
      ['06:18', 66 + carriedC],
      ['06:30', 66 + carriedC - 1],
    ])

describe('unplanned-heating', () => {
  test('does not count what rose while heat was planned', () => {
    const day = soaking()
      .line('heron', [
        ['06:00', 60],
        ['06:10', 66],
      ])
      .note('heron', '06:10', 'stage:soak')
      .line('heron', [
        ['06:10:01', 66],
        ['06:40', 65],
      ])
      .note('heron', '06:40', 'end')
    expect(day.alarms('unplanned-heating')).toEqual([])
  })

  test('does not count what rose before the end of the batch either', () => {
    const day = soaking()
      .line('heron', [
        ['06:00', 60],
        ['06:10', 66],
      ])
      .note('heron', '06:10', 'end')
      .line('heron', [
        ['06:10:01', 66],
        ['06:30', 65],
      ])
    expect(day.alarms('unplanned-heating')).toEqual([])
  })

  test('rings when a soak rises 3 °C, and says since when it rises, not since when it stood', () => {
    const day = readTrembling(
      new WatchDay()
        .pot('heron', '06:00')
        .batch('heron', '06:00', plan(SOAK))
        .note('heron', '06:00', 'stage:soak'),
      20,
      2,
      (min) => (min < 10 ? 24 : 24 + 0.8 * (min - 10)),
    )
    const [raised] = day.alarms('unplanned-heating')
    expect(raised?.change).toBe('raised')
    expect((raised!.sinceMs - at('06:00')) / MINUTE_MS).toBeGreaterThan(9.4)
    expect((raised!.sinceMs - at('06:00')) / MINUTE_MS).toBeLessThan(10.6)
  })

  // 6.4 °C: the coasting of a heavy plate in the trade notes' story 9, calculated there.
  test('a heavy plate may carry a soak on by 6.4 °C after it was turned off', () => {
    expect(soakCarried(6).alarms('unplanned-heating')).toEqual([])
    expect(changesOf(soakCarried(10), 'unplanned-heating')[0]).toBe('raised')
  })
})
