import { expect, test } from 'vitest'
import { seeded } from '../../kit/seeded.ts'
import { WatchDay, at, hold, plan } from '../../kit/watch-day.ts'

/** What happens in a studio beside the plan (common practice, no source); what matters is what is *not* called. */
const COOL = { kind: 'cool', id: 'cool', title: 'Cool', coolToC: 30, additives: [] } as const
const DYE = { windowC: [64, 70], ceilingC: 72 } as const

const sixteenths = () => {
  const random = seeded(5)
  return (tempC: number) => Math.round((tempC + 0.03 * random.normal()) * 16) / 16
}

/** A reading each second of a bath by minutes from a clock time on. */
function seen(day: WatchDay, from: string, minutes: number, tempC: (min: number) => number): WatchDay {
  const shown = sixteenths()
  for (let s = 1; s <= minutes * 60; s++) day.read('heron', at(from) + s * 1000, shown(tempC(s / 60)))
  return day
}

test('the next stage begins over its ceiling: the alarm of the last one ends, and its own rings after its delay', () => {
  const stages = plan(hold(DYE), hold({ ...DYE, id: 'second' }))
  const day = new WatchDay()
    .pot('heron', '08:00')
    .batch('heron', '08:00', stages)
    .note('heron', '08:00', 'stage:dye')
  seen(day, '08:00', 12, (min) => (min < 8 ? 67 : Math.min(74, 67 + 3 * (min - 8))))
  day.note('heron', '08:12', 'stage:second')
  seen(day, '08:12', 1, () => 74)
  const calls = day.alarms('above-ceiling').map((a) => [a.change, a.stageId, (a.atMs - at('08:12')) / 1000])
  expect(calls.slice(1)).toEqual([
    ['cleared', 'dye', 0],
    ['raised', 'second', 5],
  ])
})

test('goods that take the bath out of its window for five minutes before the hold began call nobody', () => {
  // The trade's own sum: 15 L at 80 °C with 500 g of goods and 1 kg of water at 20 °C come to 75.7 °C.
  const day = new WatchDay()
    .pot('heron', '08:00')
    .batch('heron', '08:00', plan(hold({ windowC: [78, 86], ceilingC: 90 })), false)
    .note('heron', '08:00', 'stage:dye dial:5')
  seen(day, '08:00', 10, () => 80).note('heron', '08:10', 'goods-in')
  seen(day, '08:10', 30, (min) => (min < 0.5 ? 80 - 8.6 * min : Math.min(80, 75.7 + 0.5 * (min - 0.5))))
  expect(day.alarms()).toEqual([])
  const began = day.notices().find((n) => n.notice === 'hold-started')
  expect((began!.atMs - at('08:10')) / 60_000).toBeGreaterThan(5)
})

test('a probe that is taken to another pot and back leaves unknown time and no alarm', () => {
  const shown = sixteenths()
  const day = new WatchDay()
  for (const potId of ['heron', 'wren'])
    day
      .pot(potId, '08:00')
      .batch(potId, '08:00', plan(hold(DYE)))
      .note(potId, '08:00', 'stage:dye')
  let heronC = 67
  for (let s = 1; s <= 1800; s++) {
    const atMs = at('08:00') + s * 1000
    if (s === 601 || s === 1201)
      day.feed({ kind: 'assign', atMs, probe: 'heron', potId: s === 601 ? 'wren' : 'heron', use: 'on' })
    const aroundC = s > 600 && s <= 1200 ? 68 : 66
    heronC += (aroundC - heronC) / 12
    day.read('heron', atMs, shown(heronC)).read('wren', atMs, shown(68))
  }
  expect(day.alarms()).toEqual([])
  const [heron, wren] = ['heron', 'wren'].map((potId) => day.outcomes(potId, '08:30')[0]!.bins!)
  expect(heron!.unknownS).toBeGreaterThan(590)
  expect(heron!.unknownS).toBeLessThan(660)
  expect(heron!.belowWindowS).toBe(0)
  expect(wren!.unknownS).toBe(0)
})

test('a cool-down with a stir, a lid put on, a jug of hot and one of cold water that nobody noted calls nobody', () => {
  const shown = sixteenths()
  const day = new WatchDay()
    .pot('heron', '08:00')
    .batch('heron', '08:00', plan(COOL))
    .note('heron', '08:00', 'stage:cool dial:0')
  let bathC = 85
  const steps = new Map([
    [2000, 1.2],
    [7000, 2],
    [9000, -1.5],
  ])
  for (let s = 1; s <= 4 * 3600; s++) {
    bathC -= ((s < 4000 ? 0.006 : 0.0018) / 60) * (bathC - 19) - (steps.get(s) ?? 0)
    if (s % 5 === 0) day.read('heron', at('08:00') + s * 1000, shown(bathC))
  }
  expect(day.alarms()).toEqual([])
})

test('a window that ends at its ceiling has both alarms, each after its own delay', () => {
  const day = new WatchDay()
    .pot('heron', '08:00')
    .batch('heron', '08:00', plan(hold({ windowC: [64, 70], ceilingC: 70 })))
    .note('heron', '08:00', 'stage:dye')
  seen(day, '08:00', 35, (min) => (min < 20 ? 67 : 67 + 0.3 * (min - 20)))
  const crossMs = at('08:30')
  const first = (alarm: 'above-ceiling' | 'above-window') =>
    (day.alarms(alarm).find((a) => a.change === 'raised')!.atMs - crossMs) / 1000
  expect(first('above-ceiling')).toBeLessThanOrEqual(15)
  expect(first('above-window')).toBeGreaterThan(50)
  expect(first('above-window')).toBeLessThanOrEqual(90)
})
