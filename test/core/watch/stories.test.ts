import { describe, expect, test } from 'vitest'
import { alarmText } from '#core/words/alarm-text'
import type { Happening } from '#core/watch/happening'
import { replayDay } from '#core/watch/replay-day'
import type { Trace } from '#core/watch/trace-moment'
import { seeded } from '../../kit/seeded.ts'
import { WatchDay, at, hold, plan } from '../../kit/watch-day.ts'

// The ten stories of the trade notes, with their numbers. Two of them (the second lot, the dull yellow) are
// about comparing batches; what the watch owes them is a truthful trace and its events.

const ANN = { unit: 'C', zone: 'UTC', language: 'en' } as const
const NAMES = { pots: { heron: 'Heron', wren: 'Wren', otter: 'Otter' } }
const SOAK = { kind: 'soak', id: 'soak', title: 'Soak', additives: [], minutes: 120 } as const
const COOL = { kind: 'cool', id: 'cool', title: 'Cool', additives: [], coolToC: 40 } as const

/** Toward `endC` with a time constant: what a probe does in air, and back in water. */
const toward = (startC: number, endC: number, tauS: number, s: number) =>
  endC + (startC - endC) * Math.exp(-s / tauS)

const raised = (day: WatchDay) =>
  day
    .alarms()
    .filter((a) => a.change === 'raised')
    .map((a) => `${a.potId} ${a.alarm}`)

describe('1 · the wrong burner', () => {
  const day = new WatchDay()
    .pot('heron', '08:50')
    .pot('wren', '08:50')
    .batch('heron', '08:50', plan(hold({ windowC: [64, 70], ceilingC: 71 })))
    .batch('wren', '08:50', plan(SOAK))
    .note('wren', '08:51', 'stage:soak')
  for (let s = 0; s < 660; s++) {
    const atMs = at('08:51') + s * 1000
    day.read('wren', atMs, 24).read('heron', atMs, 21.4)
  }
  day.note('heron', '09:02', 'stage:dye dial:7')
  for (let s = 0; s <= 600; s++) {
    const atMs = at('09:02') + s * 1000
    day.read('heron', atMs, 21.4).read('wren', atMs, 24 + (0.9 * s) / 60)
  }

  test('is told by 09:08 in one message that names both pots', () => {
    expect(raised(day)).toEqual(['wren wrong-burner'])
    const alarm = day.alarms()[0]!
    expect(alarm.atMs).toBeLessThanOrEqual(at('09:08'))
    expect(alarm.urgency).toBe('at-once')
    expect(alarm.potIds).toEqual(['wren', 'heron'])
    expect(alarmText(alarm, NAMES, ANN)).toContain(
      'Wren has been warming up since 09:02 and should not; Heron should, and does not.',
    )
  })
})

/** 71.0 °C at 22:10, 53.7 at 02:00 (trade notes, calculated) in a room of 17 °C; begun here at midnight. */
function night(): WatchDay {
  const day = new WatchDay()
    .pot('otter', '00:00')
    .batch('otter', '00:00', plan(COOL))
    .note('otter', '00:00', 'stage:cool dial:0 lid:on')
  const tauS = (230 * 60) / Math.log((71 - 17) / (53.7 - 17))
  for (let s = 0; s <= 13_800; s += 5) day.read('otter', at('00:00') + s * 1000, toward(71, 17, tauS, s))
  return day
}

describe('2 · the power cut at two in the night', () => {
  test('a curve that goes on as without heat wakes nobody but for the silence', () => {
    const day = night()
    for (let s = 18_900; s < 22_000; s += 5)
      day.read('otter', at('00:00') + s * 1000, toward(48.9, 17, 37_000, s - 18_900))
    expect(raised(day)).toEqual(['otter probe-silent'])
    expect(day.alarms().every((a) => a.urgency === 'soon')).toBe(true)
  })

  test('a dial that starts again after the cut is told at once, within a quarter of an hour', () => {
    const day = night()
    for (let s = 18_900; s < 20_400; s += 5)
      day.read('otter', at('00:00') + s * 1000, 48.9 + (Math.max(0, s - 19_200) / 60) * 0.6)
    const alarm = day.alarms('not-cooling')[0]!
    expect(alarm.urgency).toBe('at-once')
    expect((alarm.atMs - at('05:20')) / 60_000).toBeLessThanOrEqual(10)
  })
})

describe('3 · the probe pulled out to stir', () => {
  const day = new WatchDay()
    .pot('heron', '10:00')
    .batch('heron', '10:00', plan(hold({ windowC: [85, 92], ceilingC: 93 })))
    .note('heron', '10:00', 'stage:dye dial:4')
    .line('heron', [
      ['10:00', 88.1],
      ['10:40', 88.1],
    ])
  // 68 s toward 30 °C in air, then as the notes' readings back in the bath (about 10 s toward 88.1).
  for (let s = 1; s <= 90; s++) day.read('heron', at('10:40') + s * 1000, toward(88.1, 30, 68, s))
  for (let s = 1; s <= 300; s++) day.read('heron', at('10:41:30') + s * 1000, toward(45.5, 88.1, 9.9, s))

  test('is seen within twenty seconds, as a probe out and not as a cold bath', () => {
    expect(raised(day)).toEqual(['heron probe-out'])
    expect(day.alarms('probe-out')[0]!.atMs - at('10:40')).toBeLessThanOrEqual(20_000)
  })

  test('leaves the hold unknown from the fall until the bath is read again', () => {
    const { bins } = day.outcomes('heron', '10:46')[0]!
    expect(bins!.belowWindowS).toBe(0)
    expect(bins!.unknownS).toBeGreaterThanOrEqual(115)
    expect(bins!.unknownS).toBeLessThanOrEqual(175)
    expect(day.outcomes('heron', '10:46')[0]!.minC).toBeGreaterThan(87)
    expect(day.notices().map((n) => n.notice)).toContain('probe-back')
  })

  test('teaches how fast the probe is', () => {
    const learned = day.state.pots['heron']!.probes[0]!.learnedLagS
    expect(learned).toBeGreaterThan(8)
    expect(learned).toBeLessThan(12)
  })
})

describe('4 · the lid left off overnight', () => {
  // 82 → 64.9 (1 h) → 53.9 (2 h) → 40.4 °C (4 h) in a room of 18 °C; lidded it would be 68.0 after 2 h.
  const points = [
    ['20:00', 82],
    ['21:00', 64.9],
    ['22:00', 53.9],
    ['24:00', 40.4],
    ['24:20', 38.9],
  ] as const
  const knots = points.map(([clock, tempC]) => ({
    s: (at(clock) - at('20:00')) / 1000,
    u: Math.log(tempC - 18),
  }))
  const bathC = (s: number) => {
    const i = Math.max(
      1,
      knots.findIndex((k) => k.s >= s),
    )
    const [a, b] = [knots[i - 1]!, knots[i]!]
    return 18 + Math.exp(a.u + ((b.u - a.u) * (s - a.s)) / (b.s - a.s))
  }
  const vessel = { litres: 20, diameterCm: 30, surroundingsC: 18, burner: { dialMax: 10 } }
  const day = new WatchDay()
    .pot('heron', '20:00', { vessel })
    .batch('heron', '20:00', plan({ ...COOL, maxCoolingCPerMin: 1 }))
    .note('heron', '20:00', 'stage:cool dial:0 lid:on')
  for (let s = 0; s <= 15_600; s += 10) day.read('heron', at('20:00') + s * 1000, bathC(s))

  test('makes no sound', () => {
    expect(raised(day)).toEqual([])
  })

  test('is cool enough soon after midnight', () => {
    const told = day.notices().find((n) => n.notice === 'cool-enough')!
    expect(Math.abs(told.sinceMs! - at('24:05')) / 60_000).toBeLessThan(5)
  })
})

describe('5 · two probes changed places', () => {
  const day = new WatchDay()
    .pot('heron', '14:00')
    .pot('wren', '14:00')
    .batch('heron', '14:00', plan(hold({ windowC: [64, 70], ceilingC: 71 })))
    .batch('wren', '14:00', plan(hold({ windowC: [85, 92], ceilingC: 93 })))
    .note('heron', '14:00', 'stage:dye')
    .note('wren', '14:00', 'stage:dye')
  for (let s = 0; s <= 1300; s++) {
    const atMs = at('14:00') + s * 1000
    const since = Math.max(0, s - 1210)
    day.read('heron', atMs, toward(67.2, 88, 10, since)).read('wren', atMs, toward(88.1, 67.3, 10, since))
  }

  test('make one message at once, in place of a ceiling and a fall', () => {
    expect(raised(day)).toEqual(['heron probes-swapped'])
    const alarm = day.alarms()[0]!
    expect(alarm.urgency).toBe('at-once')
    expect(alarm.potIds).toEqual(['heron', 'wren'])
    expect(alarm.atMs - at('14:20:10')).toBeLessThanOrEqual(60_000)
    expect(alarmText(alarm, NAMES, ANN)).toContain('Did the probes change places?')
  })
})

describe('7 · six pots on one breaker', () => {
  const pots = ['p1', 'p2', 'p3', 'p4', 'p5', 'p6']
  const day = new WatchDay()
  for (const p of pots)
    day
      .pot(p, '11:00')
      .batch(p, '11:00', plan(hold({ windowC: [80, 86], ceilingC: 90 })))
      .note(p, '11:00', 'stage:dye')
  const stopC: Readonly<Record<string, number>> = { p4: 54.1, p5: 51.7, p6: 57.3 }
  for (let s = 0; s <= 26 * 60 + 400; s += 2)
    for (const [i, p] of pots.entries()) {
      const stopS = 26 * 60 + i * 3
      const cut = stopC[p] === undefined ? s : Math.min(s, stopS)
      const endC = stopC[p] ?? 52
      day.read(p, at('11:00') + s * 1000, endC - 0.9 * ((stopS - cut) / 60))
    }

  test('three pots that stop heating together are one message', () => {
    expect(raised(day)).toEqual(['p4 power-lost'])
    expect(day.alarms()[0]!.potIds).toEqual(['p4', 'p5', 'p6'])
    expect(day.alarms()[0]!.atMs - at('11:26')).toBeLessThanOrEqual(5 * 60_000)
  })
})

describe('7 · the same, of pots that came to a stop one after the other', () => {
  // Rates and the moments of stopping are invented; a probe that trembles by 0.04 °C and counts in sixteenths.
  test.each([1, 5])('read every %d s they ring once, together, for as long as the power is off', (everyS) => {
    const random = seeded(3)
    const day = new WatchDay()
    const stops = [
      { pot: 'p4', fromC: 54, rate: 0.8, stopS: 420 },
      { pot: 'p5', fromC: 51, rate: 0.8, stopS: 425 },
      { pot: 'p6', fromC: 47, rate: 0.7, stopS: 430 },
    ]
    for (const { pot } of stops)
      day
        .pot(pot, '12:00')
        .batch(pot, '12:00', plan(hold({ windowC: [75, 80], ceilingC: 85 })))
        .note(pot, '12:00', 'stage:dye dial:6')
    for (let s = 0; s < 900; s += everyS)
      for (const { pot, fromC, rate, stopS } of stops) {
        const tempC = fromC + (rate * Math.min(s, stopS) - 0.1 * Math.max(0, s - stopS)) / 60
        day.read(pot, at('12:00') + s * 1000 + 300, Math.round((tempC + random.normal(0, 0.04)) * 16) / 16)
      }
    expect(day.alarms().map((a) => [a.alarm, a.change])).toEqual([['power-lost', 'raised']])
  })
})

describe('9 · the heavy plate and the false 85', () => {
  const silk = hold({ windowC: [76, 82], ceilingC: 85 })
  const heating = () =>
    new WatchDay()
      .pot('wren', '14:00')
      .batch('wren', '14:00', plan(silk))
      .note('wren', '14:00', 'stage:dye dial:9')

  test('turn down now is told at about 74 °C', () => {
    const day = heating().line('wren', [
      ['14:00', 40],
      ['14:30', 79],
    ])
    const told = day.notices().find((n) => n.notice === 'turn-down-now')!
    expect(told.tempC).toBeGreaterThan(72)
    expect(told.tempC).toBeLessThan(75)
  })

  test('a bath that really rises past 85 rings within fifteen seconds', () => {
    const day = heating().line(
      'wren',
      [
        ['14:00', 76],
        ['14:10', 84.6],
      ],
      10,
    )
    const atMs = at('14:10')
    for (const [i, tempC] of [84.9, 85.1, 85.4, 85.6].entries())
      day.read('wren', atMs + (i + 1) * 5000, tempC)
    day.tickUntil(atMs + 40_000)
    const alarm = day.alarms('above-ceiling')[0]!
    expect(alarm.atMs - (atMs + 10_000)).toBeLessThanOrEqual(15_000)
  })

  /** 50 → 79.4 °C at 1 °C a minute, twenty seconds without a reading, then what the board says after it. */
  const brownOut = (after: readonly number[]) => {
    const heated = Array.from({ length: 365 }, (_, i) => ({
      atMs: at('14:40') + i * 5000,
      events: [],
      tempC: Math.min(79.4, 50 + i / 12),
      found: null,
    }))
    const offMs = heated.at(-1)!.atMs + 20_000
    const woken = after.map((tempC, i) => ({ atMs: offMs + i * 5000, events: [], tempC, found: null }))
    const trace: Trace = { moments: [...heated, ...woken], rejected: 0, duplicates: 0 }
    const told: Happening[] = []
    const end = replayDay(trace, { plan: plan(silk), vessel: null, lagS: null }, (h) => told.push(h))
    const ceiling = told.some((h) => h.kind === 'alarm' && h.alarm === 'above-ceiling')
    return { ceiling, disbelieved: end.disbelieved }
  }
  const level = Array.from({ length: 24 }, () => 79.6)

  test('a lone 85.000 after the board browned out is no bath over its ceiling', () => {
    expect(brownOut([85, ...level])).toEqual({ ceiling: false, disbelieved: 1 })
  })

  test('a bath that did climb meanwhile, and goes on over the ceiling, is one', () => {
    expect(brownOut([84.6, 84.9, 85.1, 85.4, 85.6, 85.8, 86, 86.2]).ceiling).toBe(true)
  })
})
