import { describe, expect, test } from 'vitest'
import { potNumbers } from '#core/watch/stove'
import { WatchDay, at, hold, plan } from '../../kit/watch-day.ts'

const notices = (day: WatchDay) => day.log().filter((line) => !/raised|cleared|escalated/.test(line))

describe('a whole day', () => {
  const day = new WatchDay()
    .pot('heron', '09:00')
    .batch(
      'heron',
      '09:00',
      plan(hold({ windowC: [65, 72], ceilingC: 76, holdMin: 30, turnEveryMin: 10, outByMin: 60 }), {
        kind: 'cool',
        id: 'cool',
        title: 'Cool',
        additives: [],
        coolToC: 40,
      }),
    )
    .note('heron', '09:00', 'stage:dye dial:8')
    .line('heron', [
      ['09:00', 30],
      ['09:40', 68],
      ['09:50', 68],
    ])
    .note('heron', '09:50', 'stir')
    .line('heron', [
      ['09:50:01', 68],
      ['10:14', 68],
    ])
    .note('heron', '10:14', 'stage:cool dial:0')
    .line('heron', [
      ['10:14:01', 68],
      ['11:14', 38],
    ])

  test('tells what is expected, once each and in order', () => {
    expect(notices(day).map((line) => line.slice(9))).toEqual([
      'stage-started',
      'turn-down-now',
      'at-window',
      'hold-started',
      'turn-due',
      'turn-due',
      'out-by-due',
      'hold-done',
      'stage-started',
      'cool-enough',
    ])
  })

  test('a turn is due ten minutes after the last one', () => {
    const due = day
      .notices()
      .filter((n) => n.notice === 'turn-due')
      .map((n) => n.dueMs! - at('09:50'))
    expect(due[0]).toBeLessThan(0)
    expect(due[1]).toBe(600_000)
  })

  test('cool-enough says when the line passed the target', () => {
    // 68 → 38 °C in an hour: 40 °C after 56 minutes.
    const told = day.notices().at(-1)!
    expect(Math.abs(told.sinceMs! - at('11:10')) / 1000).toBeLessThan(10)
  })
})

test('the hold is told to pause and to count again, each after half a minute', () => {
  const day = new WatchDay()
    .pot('heron', '09:00')
    .batch('heron', '09:00', plan(hold({ windowC: [65, 72] })))
    .note('heron', '09:00', 'stage:dye')
    .line('heron', [
      ['09:00', 68],
      ['09:10', 68],
      ['09:11', 63],
      ['09:15', 63],
      ['09:16', 68],
      ['09:20', 68],
    ])
  const told = notices(day).filter((line) => /paused|resumed/.test(line))
  expect(told).toHaveLength(2)
  expect(told[0]).toContain('hold-paused')
  expect(told[1]).toContain('hold-resumed')
})

test('potNumbers shows no temperature once the bath has not been read for a minute', () => {
  const day = new WatchDay()
    .pot('heron', '09:00')
    .batch('heron', '09:00', plan(hold({ windowC: [65, 72] })))
    .note('heron', '09:00', 'stage:dye')
    .line('heron', [
      ['09:00', 68],
      ['09:10', 68],
    ])
  const fresh = potNumbers(day.state, 'heron', at('09:10:30'))
  expect(fresh).toMatchObject({ tempC: 68, lastReadingC: 68, periodMs: 1000 })
  expect(fresh.hold).toMatchObject({ state: 'counting', startedMs: at('09:00'), inWindowS: 630 })
  const stale = potNumbers(day.state, 'heron', at('09:11:01'))
  expect(stale.tempC).toBeNull()
  expect(stale.hold).toMatchObject({ state: 'paused', inWindowS: 600, unknownS: 61 })
  expect(stale.lastReadingC).toBe(68)
})

// A newcomer read "+11 °C/min" from a bath at rest, half a minute after the probe was hung back in.
test('the rate is settling for the first minutes, and again after a probe was out and hung back in', () => {
  const day = new WatchDay()
    .pot('heron', '09:00')
    .batch('heron', '09:00', plan(hold({ windowC: [65, 72] })))
    .note('heron', '09:00', 'stage:dye')
  const isSettling = (clock: string) => potNumbers(day.state, 'heron', at(clock)).isRateSettling
  day.line('heron', [
    ['09:00', 68],
    ['09:01', 68],
  ])
  expect(isSettling('09:01')).toBe(true)
  day.line('heron', [
    ['09:01:01', 68],
    ['09:10', 68],
  ])
  expect(isSettling('09:10')).toBe(false)
  day.line('heron', [
    ['09:10:01', 64],
    ['09:10:25', 25],
    ['09:12', 22],
    ['09:12:30', 67.5],
    ['09:14', 67.5],
  ])
  expect(isSettling('09:14')).toBe(true)
  day.line('heron', [
    ['09:14:01', 67.5],
    ['09:20', 67.5],
  ])
  expect(isSettling('09:20')).toBe(false)
})

const reached = (stage: Parameters<typeof hold>[0], goodsIn?: boolean) =>
  new WatchDay()
    .pot('heron', '09:00')
    .batch('heron', '09:00', plan(hold(stage)), goodsIn)
    .note('heron', '09:00', 'stage:dye')
    .line('heron', [
      ['09:00', 60],
      ['09:10', 68],
    ])
    .notices()
    .find((n) => n.notice === 'at-window')

describe('at the window it is said whether goods have to go in', () => {
  const windowC = [65, 72] as const

  test('goods that were noted in only have to stay', () => {
    expect(reached({ windowC }, true)?.holdFollows).toBe(true)
  })

  test('an extraction needs none', () => {
    expect(reached({ windowC, goods: false }, false)?.holdFollows).toBe(true)
  })

  test('goods that are out can go in, and so can goods that nobody has spoken of', () => {
    expect(reached({ windowC }, false)).not.toHaveProperty('holdFollows')
    expect(reached({ windowC })).not.toHaveProperty('holdFollows')
  })
})
