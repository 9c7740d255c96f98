import { describe, expect, test } from 'vitest'
import { WatchDay, at, hold, plan } from '../../kit/watch-day.ts'

/** Delays and how each alarm ends: the table of docs/watch.md. */
const soaking = () =>
  new WatchDay()
    .pot('heron', '12:00')
    .batch('heron', '12:00', plan({ kind: 'soak', id: 'soak', title: 'Soak', additives: [], minutes: 120 }))
    .note('heron', '12:00', 'stage:soak')

const cooling = () =>
  new WatchDay()
    .pot('heron', '12:00')
    .batch('heron', '12:00', plan({ kind: 'cool', id: 'cool', title: 'Cool', additives: [], coolToC: 30 }))
    .note('heron', '12:00', 'stage:cool')

const changes = (day: WatchDay, alarm: string) =>
  day.alarms(alarm).map((a) => [a.change, new Date(a.atMs).toISOString().slice(11, 19)])

describe('an alarm about heat that should not be on', () => {
  test('stands while the bath stands still, and until it has fallen for five minutes', () => {
    const day = soaking().line(
      'heron',
      [
        ['12:00', 24],
        ['12:10', 24],
        ['12:20', 33],
        ['12:30', 33.01],
        ['12:45', 31.51],
      ],
      5,
    )
    const [raised, cleared] = changes(day, 'unplanned-heating')
    expect(raised![0]).toBe('raised')
    expect(cleared![0]).toBe('cleared')
    expect(cleared![1]! >= '12:34:00' && cleared![1]! <= '12:36:00', `at ${cleared![1]}`).toBe(true)
  })

  test('goes on through a thermostat that only pauses', () => {
    const day = cooling()
    const points: [string, number][] = [
      ['12:00', 70],
      ['12:30', 60],
      ['12:50', 64],
    ]
    for (let i = 0; i < 5; i++) points.push([`13:0${2 * i}`, 64.3], [`13:0${2 * i + 1}`, 63.9])
    day.line('heron', points, 5)
    expect(changes(day, 'not-cooling').map(([change]) => change)).toEqual(['raised'])
  })
})

test('a cool-down that stalls is said to do so since about when it stalled, not since it still fell', () => {
  const day = cooling().line(
    'heron',
    [
      ['12:00', 70],
      ['13:00', 60],
      ['13:30', 60],
    ],
    10,
  )
  const raised = day.alarms('not-cooling')[0]!
  expect(raised.change).toBe('raised')
  expect(raised.sinceMs).toBeGreaterThanOrEqual(at('12:55'))
})

test('silence in a rest is not held against the bath after it', () => {
  const rest = { kind: 'rest', id: 'rest', title: 'Rest', additives: [], minutes: 20 } as const
  const day = new WatchDay()
    .pot('heron', '12:00')
    .batch('heron', '12:00', plan(rest, hold({ windowC: [64, 70] })))
    .note('heron', '12:00', 'stage:rest')
    .line('heron', [
      ['12:00', 20],
      ['12:05', 20],
    ])
    .note('heron', '12:20', 'stage:dye')
    .tickUntil(at('12:20:59'))
  expect(day.alarms('probe-silent')).toEqual([])
  day.tickUntil(at('12:22'))
  expect(changes(day, 'probe-silent')).toEqual([['raised', '12:21:00']])
})
