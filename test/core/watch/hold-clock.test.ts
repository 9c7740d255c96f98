import { describe, expect, test } from 'vitest'
import { WatchDay, at, hold, plan } from '../../kit/watch-day.ts'

const heron = (stage = hold({ windowC: [78, 86] }), goodsIn?: boolean) =>
  new WatchDay().pot('heron', '12:00').batch('heron', '12:00', plan(stage), goodsIn)

// The seven-minute dip: the figures of the trade notes' story 8 and of their check values (53/7/0, 49/7/4).
const storyEight = (day: WatchDay) =>
  day
    .note('heron', '12:50', 'stage:dye')
    .line('heron', [
      ['12:50', 80],
      ['13:00', 80],
    ])
    .note('heron', '13:00', 'goods-in')
    .line('heron', [
      ['13:00:01', 79.5],
      ['13:00:30', 75.7],
      ['13:05', 78],
      ['13:06', 80],
      ['13:30', 80],
      ['13:30:59', 78.1],
    ])
    .line('heron', [
      ['13:31', 77.9],
      ['13:34', 76.2],
      ['13:37:59', 77.95],
    ])

describe('the bins of a hold', () => {
  test('a hold with a seven-minute dip is 53 minutes in the window of 60 by the clock', () => {
    const day = storyEight(heron(undefined, false))
      .line('heron', [
        ['13:38', 78],
        ['13:39', 80],
        ['14:05', 80],
      ])
      .note('heron', '14:05', 'end')
    const [outcome] = day.outcomes('heron', '14:05')
    expect(outcome?.bins).toMatchObject({ requiredS: 3600, aboveWindowS: 0, unknownS: 0, goodsOutS: 0 })
    expect(outcome!.bins!.inWindowS / 60).toBeCloseTo(53, 1)
    expect(outcome!.bins!.belowWindowS / 60).toBeCloseTo(7, 1)
    expect(outcome!.bins!.inWindowS + outcome!.bins!.belowWindowS).toBe(3600)
    expect(outcome?.minC).toBe(76.2)
    expect(outcome?.doneMs).toBeNull()
  })

  test('four minutes of silence inside the window are unknown, not held: 49, 7 and 4', () => {
    const day = storyEight(heron(undefined, false))
      .line('heron', [
        ['13:38', 78],
        ['13:39', 80],
        ['13:50', 80],
      ])
      .line('heron', [
        ['13:54', 80],
        ['14:05', 80],
      ])
      .note('heron', '14:05', 'end')
    const { bins } = day.outcomes('heron', '14:05')[0]!
    expect(Math.round(bins!.inWindowS / 60)).toBe(49)
    expect(Math.round(bins!.belowWindowS / 60)).toBe(7)
    expect(bins!.unknownS).toBe(240)
    expect(bins!.inWindowS + bins!.belowWindowS + bins!.unknownS).toBe(3600)
  })

  test('a silence in the first three minutes neither counts towards the start nor takes the entry away', () => {
    const day = heron()
      .note('heron', '12:00', 'stage:dye')
      .line('heron', [
        ['12:00', 76],
        ['12:01', 78],
        ['12:02:20', 80],
      ])
      .line('heron', [
        ['12:04', 80],
        ['12:20', 80],
      ])
      .note('heron', '12:20', 'end')
    const { bins } = day.outcomes('heron', '12:20')[0]!
    expect(bins).toMatchObject({ inWindowS: 80 + 16 * 60, unknownS: 100, belowWindowS: 0 })
  })

  test('a bath that is out of the window after a silence has not stayed there', () => {
    const day = heron()
      .note('heron', '12:00', 'stage:dye')
      .line('heron', [
        ['12:00', 80],
        ['12:01', 80],
      ])
      .line('heron', [
        ['12:03', 77],
        ['12:04', 78],
        ['12:10', 80],
      ])
      .note('heron', '12:10', 'end')
    const { bins } = day.outcomes('heron', '12:10')[0]!
    expect(bins).toMatchObject({ inWindowS: 360, unknownS: 0, belowWindowS: 0 })
  })

  test('a bath exactly on a bound is in the window', () => {
    for (const tempC of [78, 86]) {
      const day = heron()
        .note('heron', '12:00', 'stage:dye')
        .line('heron', [
          ['12:00', tempC],
          ['12:10', tempC],
        ])
      expect(day.outcomes('heron', '12:10')[0]!.bins!.inWindowS).toBe(600)
    }
  })

  test('a crossing lies on the straight line between two readings', () => {
    const day = heron(hold({ windowC: [70, 80], ceilingC: 90 }))
      .note('heron', '12:00', 'stage:dye')
      .line('heron', [
        ['12:00', 75],
        ['12:10', 75],
      ])
      .line(
        'heron',
        [
          ['12:10', 75],
          ['12:10:40', 95],
        ],
        40,
      )
    // 75 → 95 °C in 40 s: over 80 after 10 s, over 90 after 30 s.
    expect(day.outcomes('heron', '12:10:40')[0]!.bins).toMatchObject({
      inWindowS: 610,
      aboveWindowS: 20,
      aboveCeilingS: 10,
    })
  })

  test('a bath that stays in the window for less than three minutes has not started a hold', () => {
    const day = heron()
      .note('heron', '12:00', 'stage:dye')
      .line('heron', [
        ['12:00', 80],
        ['12:02:59', 80],
        ['12:03', 70],
        ['12:04', 70],
      ])
    expect(day.outcomes('heron', '12:04')[0]!.bins!.inWindowS).toBe(0)
    expect(day.notices().map((n) => n.notice)).not.toContain('hold-started')
  })

  test('three minutes make a start, counted from the entry', () => {
    const day = heron()
      .note('heron', '12:00', 'stage:dye')
      .line('heron', [
        ['12:00', 80],
        ['12:03', 80],
      ])
    const started = day.notices().find((n) => n.notice === 'hold-started')
    expect(started).toMatchObject({ atMs: at('12:03'), sinceMs: at('12:00') })
    expect(day.outcomes('heron', '12:03')[0]!.bins!.inWindowS).toBe(180)
  })

  test('a gap of 60 s is known, one of 61 s is unknown as a whole', () => {
    for (const [gapS, unknownS] of [
      [60, 0],
      [61, 61],
    ] as const) {
      const day = heron()
        .note('heron', '12:00', 'stage:dye')
        .line('heron', [
          ['12:00', 80],
          ['12:10', 80],
        ])
        .read('heron', at('12:10') + gapS * 1000, 80)
      const bins = day.outcomes('heron', '12:10')[0]!.bins!
      expect([bins.inWindowS, bins.unknownS]).toEqual([600 + gapS - unknownS, unknownS])
    }
  })
})
