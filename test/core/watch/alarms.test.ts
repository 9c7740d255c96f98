import { describe, expect, test } from 'vitest'
import { WatchDay, at, hold, plan } from '../../kit/watch-day.ts'

const STAGE = hold({ windowC: [64, 70], ceilingC: 71, holdMin: 60 })

const dyeing = (stage = STAGE) =>
  new WatchDay()
    .pot('heron', '12:00')
    .batch('heron', '12:00', plan(stage))
    .note('heron', '12:00', 'stage:dye')

const raisedAt = (day: WatchDay, alarm: string) =>
  day
    .alarms(alarm)
    .filter((a) => a.change === 'raised')
    .map((a) => a.atMs - at('12:00'))

/** Heated at 1 °C a minute past the ceiling with a probe told to lag: when it rings. */
function ring(lagS: number): number {
  const day = new WatchDay()
    .pot('heron', '12:00', { lagS })
    .batch('heron', '12:00', plan(STAGE))
    .note('heron', '12:00', 'stage:dye')
    .line('heron', [
      ['12:00', 66],
      ['12:12', 78],
    ])
  return raisedAt(day, 'above-ceiling')[0]!
}

describe('above-ceiling', () => {
  test('a bath exactly on its ceiling is allowed', () => {
    const day = dyeing().line('heron', [
      ['12:00', 67],
      ['12:10', 71],
      ['12:30', 71],
    ])
    expect(day.alarms('above-ceiling')).toEqual([])
  })

  test('rings five seconds after the first of two readings over it', () => {
    const day = dyeing().line('heron', [
      ['12:00', 70],
      ['12:10', 70],
      ['12:10:01', 72],
      ['12:11', 72],
    ])
    expect(raisedAt(day, 'above-ceiling')).toEqual([606_000])
  })

  test('ends half a degree under it for a minute, not a second sooner', () => {
    const day = dyeing().line('heron', [
      ['12:00', 72],
      ['12:05', 72],
      ['12:05:01', 70.4],
      ['12:06', 70.4],
    ])
    expect(day.alarms('above-ceiling').map((a) => a.change)).toEqual(['raised'])
    day.line('heron', [
      ['12:06:01', 70.4],
      ['12:06:10', 70.4],
    ])
    const cleared = day.alarms('above-ceiling').find((a) => a.change === 'cleared')
    expect(cleared!.atMs - at('12:05:01')).toBeGreaterThanOrEqual(60_000)
    expect(cleared!.atMs - at('12:05:01')).toBeLessThanOrEqual(65_000)
  })

  test('a lone reading over it is no bath over it', () => {
    const day = dyeing()
      .line('heron', [
        ['12:00', 68],
        ['12:10', 68],
      ])
      .read('heron', at('12:10:01'), 85)
      .line('heron', [
        ['12:10:02', 68],
        ['12:20', 68],
      ])
    expect(day.alarms('above-ceiling')).toEqual([])
  })

  test('the hottest of several probes governs it', () => {
    const day = dyeing().feed({ kind: 'assign', atMs: at('12:00'), potId: 'heron', probe: 'low', use: 'on' })
    for (let s = 0; s < 60; s++)
      day.read('heron', at('12:00') + s * 1000, 68).read('low', at('12:00') + s * 1000, 72)
    expect(raisedAt(day, 'above-ceiling')).toEqual([5000])
  })

  test('a probe told to lag is taken to where the bath is already', () => {
    // 1 °C a minute through a lag of 12 s: the probe is 0.2 °C and 12 s behind (ramp lag = rate × τ).
    expect(ring(0) - ring(12)).toBeGreaterThanOrEqual(10_000)
    expect(ring(0) - ring(12)).toBeLessThanOrEqual(13_000)
  })
})

describe('the window', () => {
  test('above-window rings after a minute over the top, below-window after a minute and a half', () => {
    const day = dyeing().line('heron', [
      ['12:00', 67],
      ['12:20', 67],
      ['12:20:01', 70.8],
      ['12:30', 70.8],
    ])
    expect(raisedAt(day, 'above-window')[0]! - 1201_000).toBeLessThanOrEqual(62_000)
    expect(raisedAt(day, 'above-window')[0]! - 1201_000).toBeGreaterThanOrEqual(60_000)
    const low = dyeing().line('heron', [
      ['12:00', 67],
      ['12:20', 67],
      ['12:20:01', 63],
      ['12:30', 63],
    ])
    expect(raisedAt(low, 'below-window')[0]! - 1201_000).toBeGreaterThanOrEqual(90_000)
    expect(raisedAt(low, 'below-window')[0]! - 1201_000).toBeLessThanOrEqual(92_000)
    expect(low.alarms('below-window')[0]!.peakC).toBe(63)
  })

  test.each([1, 5, 10, 30])(
    'nothing rings when it was out for fifty seconds only, read every %d s',
    (everyS) => {
      const out = (sideC: number) =>
        dyeing().line(
          'heron',
          [
            ['12:00', 67],
            ['12:20', 67],
            ['12:22', 67 + 2.8 * sideC],
            ['12:22:01', 67 + 3.5 * sideC],
            ['12:22:50', 67 + 3.5 * sideC],
            ['12:22:51', 67 + 2 * sideC],
            ['12:38', 67 + sideC],
          ],
          everyS,
        )
      expect(out(1).alarms('above-window')).toEqual([])
      expect(out(-1).alarms('below-window')).toEqual([])
    },
  )

  test('nothing rings while the bath heats up to it for the first time', () => {
    const day = dyeing().line('heron', [
      ['12:00', 20],
      ['12:40', 60],
    ])
    expect(day.alarms()).toEqual([])
  })

  test('a full hold that cools with the burner noted off is not below its window', () => {
    const day = dyeing(hold({ windowC: [64, 70], holdMin: 10 }))
      .note('heron', '12:00', 'dial:0')
      .line('heron', [
        ['12:00', 67],
        ['12:11', 67],
        ['12:30', 60],
        ['12:40', 58],
      ])
    expect(day.notices().map((n) => n.notice)).toContain('hold-done')
    expect(day.alarms('below-window')).toEqual([])
  })

  test('heading-above-window comes minutes before it happens', () => {
    const day = dyeing().line('heron', [
      ['12:00', 66],
      ['12:20', 66],
      ['12:50', 71],
    ])
    const headingMs = raisedAt(day, 'heading-above-window')[0]!
    const crossingMs = at('12:44') - at('12:00')
    expect(crossingMs - headingMs).toBeGreaterThanOrEqual(120_000)
  })

  test('an alarm of a stage ends with its stage', () => {
    const day = dyeing()
      .line('heron', [
        ['12:00', 67],
        ['12:20', 67],
        ['12:20:01', 70.8],
        ['12:30', 70.8],
      ])
      .note('heron', '12:30', 'end')
    expect(day.alarms('above-window').map((a) => [a.change, a.atMs])).toContainEqual(['cleared', at('12:30')])
  })
})

const COOL = { kind: 'cool', id: 'cool', title: 'Cool', coolToC: 30, additives: [] } as const

/** A cool-down from 12:10 on of a bath that was on its way by so much a minute until then, and stands for 15 minutes. */
function turnedOff(rate: number): readonly number[] {
  const day = new WatchDay()
    .pot('heron', '12:00')
    .batch('heron', '12:00', plan(hold({ windowC: [80, 90] }), COOL))
  day.note('heron', '12:00', 'stage:dye')
  for (let s = 0; s <= 1500; s += 30) {
    if (s === 600) day.note('heron', '12:10', 'stage:cool dial:0')
    const tempC = 75 + rate * Math.min(0, (s - 600) / 60)
    day.read('heron', at('12:00') + s * 1000, Math.round(tempC * 2) / 2)
  }
  return raisedAt(day, 'probe-stuck')
}

describe('the probe', () => {
  test('silence rings at sixty seconds, grows urgent at 180 s with a burner noted on, and heals', () => {
    const day = dyeing()
      .note('heron', '12:00', 'dial:7')
      .line('heron', [
        ['12:00', 67],
        ['12:10', 67],
      ])
      .tickUntil(at('12:15'))
      .read('heron', at('12:15'), 67)
    expect(day.alarms('probe-silent').map((a) => [a.change, a.urgency, a.atMs - at('12:10')])).toEqual([
      ['raised', 'soon', 60_000],
      ['escalated', 'at-once', 180_000],
      ['cleared', 'at-once', 300_000],
    ])
  })

  test('silence with the burner off stays a matter for soon', () => {
    const day = dyeing()
      .note('heron', '12:00', 'dial:0')
      .line('heron', [
        ['12:00', 67],
        ['12:10', 67],
      ])
      .tickUntil(at('12:20'))
    expect(day.alarms('probe-silent').map((a) => a.urgency)).toEqual(['soon'])
  })

  test('lost readings end no alarm', () => {
    const day = dyeing()
      .line('heron', [
        ['12:00', 72],
        ['12:05', 72],
      ])
      .tickUntil(at('12:20'))
    expect(day.alarms('above-ceiling').map((a) => a.change)).toEqual(['raised'])
  })

  test('a probe that answers once a minute is not silent when it is a second late', () => {
    const day = dyeing()
    for (let i = 0; i < 30; i++) day.read('heron', at('12:00') + i * 60_000 + (i % 2) * 1500, 67)
    expect(day.alarms('probe-silent')).toEqual([])
  })

  test('three fault codes in a row are a fault, and a good reading ends it', () => {
    const day = dyeing().line('heron', [
      ['12:00', 67],
      ['12:01', 67],
    ])
    for (const s of [1, 2, 3]) {
      const atMs = at('12:01') + s * 1000
      const reading = { kind: 'fault', probe: 'heron', atMs, fault: 'not-connected', found: '-127' } as const
      day.feed({ kind: 'reading', atMs, reading })
    }
    day.read('heron', at('12:01:10'), 67)
    expect(day.alarms('probe-fault').map((a) => [a.change, a.atMs - at('12:01')])).toEqual([
      ['raised', 3000],
      ['cleared', 10_000],
    ])
  })

  test('a trembling probe that shows one value for ten minutes is stuck', () => {
    const day = dyeing()
    for (let s = 0; s < 1200; s++) day.read('heron', at('12:00') + s * 1000, 67 + 0.01 * ((s * 7) % 5))
    day.line('heron', [
      ['12:20', 67.31],
      ['12:32', 67.31],
    ])
    expect(raisedAt(day, 'probe-stuck')).toEqual([1200_000 + 600_000])
  })

  test('a bath that turns as its burner is turned off stands still for a while, and the probe is not stuck', () => {
    expect(turnedOff(0.1)).toEqual([])
    expect(turnedOff(0.25)).toEqual([])
  })

  test('one that fell and shows one value for ten minutes is stuck', () => {
    expect(turnedOff(-0.25)).toHaveLength(1)
  })

  test('a bath held to the last digit from the start is not called stuck', () => {
    const day = dyeing().line('heron', [
      ['12:00', 60],
      ['12:07', 67],
      ['13:10', 67],
    ])
    expect(day.alarms('probe-stuck')).toEqual([])
  })
})

describe('heat', () => {
  test('no-heat is told by six minutes after the dial', () => {
    const day = dyeing()
      .note('heron', '12:00', 'dial:8')
      .line('heron', [
        ['12:00', 21.4],
        ['12:10', 21.4],
      ])
    expect(raisedAt(day, 'no-heat')[0]).toBeLessThanOrEqual(360_000)
    expect(raisedAt(day, 'no-heat')).toHaveLength(1)
  })

  test('no-heat rings once while no heat comes, however the probe trembles', () => {
    const day = dyeing().note('heron', '12:00', 'dial:8')
    // A flat bath of 21 °C, read each half minute in tenths.
    const tenths = [0, 1, 0, -1, 1, 0, 0, -1, 1, 1, -1, 0, 1, -1, -1, 0, 1, 0, -1, 1]
    for (let i = 0; i < 60; i++) day.read('heron', at('12:00') + i * 30_000, 21 + tenths[i % 20]! / 10)
    expect(day.alarms('no-heat').map((a) => a.change)).toEqual(['raised'])
  })

  test('heat that comes is no alarm', () => {
    const day = dyeing()
      .note('heron', '12:00', 'dial:8')
      .line('heron', [
        ['12:00', 21.4],
        ['12:02', 21.4],
        ['12:20', 27],
      ])
    expect(day.alarms('no-heat')).toEqual([])
  })

  test('a hold that sinks out of its window with its dial on is one message; turned up in vain it is a second', () => {
    const day = dyeing()
      .note('heron', '12:00', 'dial:4')
      .line('heron', [
        ['12:00', 67],
        ['12:20', 67],
        ['12:50', 62],
      ])
    expect(raisedAt(day, 'below-window')).toHaveLength(1)
    expect(raisedAt(day, 'no-heat')).toEqual([])
    day.note('heron', '12:50', 'dial:8').line('heron', [
      ['12:50:01', 62],
      ['13:00', 61],
    ])
    expect(raisedAt(day, 'no-heat')).toHaveLength(1)
  })

  test('a rate at the maximum of the plan is allowed, one over it rings', () => {
    const stage = hold({ windowC: [80, 86], maxHeatingCPerMin: 1.5 })
    const even = dyeing(stage).line('heron', [
      ['12:00', 20],
      ['12:20', 50],
    ])
    expect(even.alarms('heating-too-fast')).toEqual([])
    const fast = dyeing(stage).line('heron', [
      ['12:00', 20],
      ['12:20', 52],
    ])
    expect(raisedAt(fast, 'heating-too-fast')).toHaveLength(1)
    expect(raisedAt(fast, 'heating-too-fast')[0]).toBeLessThanOrEqual(5 * 60_000)
  })

  test('near the boil, and then past it without water', () => {
    const day = dyeing(hold({ windowC: [80, 86] })).line('heron', [
      ['12:00', 95],
      ['12:05', 99.5],
      ['12:20', 100],
      ['12:23', 104],
    ])
    expect(day.alarms('near-boil')[0]?.urgency).toBe('soon')
    expect(day.alarms('boil-dry')[0]?.urgency).toBe('at-once')
  })

  test('the boiling point is the local one', () => {
    // 2500 m: 91.7 °C (US Standard Atmosphere 1976 with IAPWS-IF97, as the trade notes print it).
    const vessel = { litres: 20, altitudeM: 2500, burner: { dialMax: 10 } }
    const day = new WatchDay()
      .pot('heron', '12:00', { vessel })
      .batch('heron', '12:00', plan(hold({ windowC: [80, 86] })))
      .note('heron', '12:00', 'stage:dye')
      .line('heron', [
        ['12:00', 85],
        ['12:05', 91],
        ['12:10', 91],
      ])
    expect(day.alarms('near-boil').map((a) => a.change)).toEqual(['raised'])
  })
})

/** A probe's answer to a step of the bath, s after it. */
const answer = (stepC: number, lagS: number, s: number) => stepC * (1 - Math.exp(-s / lagS))

describe('probe-out', () => {
  // 18 L at 82 °C and 2 L at 15 °C give 75.3 °C (trade notes' story 8); 8 °C is more than any jug does there.
  test.each([
    [6.7, 12],
    [6.7, 25],
    [8, 12],
    [8, 25],
  ])(
    'cold water that nobody noted, %d °C through a lag of %d s, is not a probe on the bench',
    (dropC, lagS) => {
      const day = dyeing(hold({ windowC: [70, 90], holdMin: 60 })).line('heron', [
        ['12:00', 82],
        ['12:30', 82],
      ])
      for (let s = 1; s <= 300; s++)
        day.read('heron', at('12:30') + s * 1000, 82 - answer(dropC, lagS, s) + 0.004 * s)
      expect(day.alarms('probe-out')).toEqual([])
    },
  )

  test('a bath that is 12 °C cooler from one reading to the next is asked about once', () => {
    const day = dyeing(hold({ windowC: [80, 86], holdMin: 60 }))
    for (let s = 0; s <= 1200; s += 10) day.read('heron', at('12:00') + s * 1000, s < 600 ? 82 : 70)
    expect(day.alarms('probe-out').map((a) => a.change)).toEqual(['raised', 'cleared'])
    expect(day.alarms('below-window').map((a) => a.change)).toEqual(['raised'])
  })

  // A time constant of 68 s in air of 30 °C: the trade notes' story 3.
  test.each([45, 68, 88])('a probe laid aside out of a bath of %d °C is told within 20 s', (bathC) => {
    const day = dyeing(hold({ windowC: [40, 95], holdMin: 60 })).line('heron', [
      ['12:00', bathC],
      ['12:30', bathC],
    ])
    for (let s = 1; s <= 40; s++) day.read('heron', at('12:30') + s * 1000, bathC - answer(bathC - 24, 68, s))
    const [raised] = raisedAt(day, 'probe-out')
    expect(raised! - 30 * 60_000).toBeLessThanOrEqual(20_000)
  })
})
