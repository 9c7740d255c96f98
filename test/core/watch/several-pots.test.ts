import { describe, expect, test } from 'vitest'
import { WatchDay, at, hold, plan } from '../../kit/watch-day.ts'

const STAGE = hold({ windowC: [64, 70], ceilingC: 75 })

function twoPots(): WatchDay {
  const day = new WatchDay()
  for (const p of ['heron', 'wren'])
    day.pot(p, '12:00').batch(p, '12:00', plan(STAGE)).note(p, '12:00', 'stage:dye dial:4')
  for (let s = 0; s < 600; s++) {
    const atMs = at('12:00') + s * 1000
    day.read('heron', atMs, 67).read('wren', atMs, 68)
  }
  return day
}

describe('the bridge', () => {
  test('all pots silent together are one message, and it ends with the first reading', () => {
    const day = twoPots().tickUntil(at('12:15')).read('heron', at('12:15'), 67).tickUntil(at('12:15:02'))
    expect(
      day
        .log()
        .filter((line) => !line.includes('hold-'))
        .slice(-3),
    ).toEqual(['12:10:59 bridge-lost raised', '12:15:00 bridge-lost cleared', '12:15:00 probe-silent raised'])
    expect(day.alarms('bridge-lost')[0]!.potIds).toEqual(['heron', 'wren'])
    expect(day.alarms('probe-silent').map((a) => a.potId)).toEqual(['wren'])
  })

  test('one silent pot beside one that is heard is its own alarm', () => {
    const day = twoPots()
    for (let s = 600; s < 900; s++) day.read('wren', at('12:00') + s * 1000, 68)
    expect(day.alarms().map((a) => a.alarm)).toContain('probe-silent')
    expect(day.alarms('bridge-lost')).toEqual([])
  })
})

describe('one probe for two pots', () => {
  test('the time that it is away is unknown, and so is the time that it still shows the other pot', () => {
    const day = new WatchDay()
    for (const p of ['heron', 'wren'])
      day.pot(p, '12:00').batch(p, '12:00', plan(STAGE)).note(p, '12:00', 'stage:dye')
    day.feed({ kind: 'assign', atMs: at('12:00'), potId: 'wren', probe: 'wren', use: 'off' })
    day.line('heron', [
      ['12:00', 67],
      ['12:10', 67],
    ])
    day.feed({ kind: 'assign', atMs: at('12:10'), potId: 'wren', probe: 'heron', use: 'on' })
    for (let s = 1; s < 300; s++) day.read('heron', at('12:10') + s * 1000, 40 + 27 * Math.exp(-s / 10))
    day.feed({ kind: 'assign', atMs: at('12:15'), potId: 'heron', probe: 'heron', use: 'on' })
    for (let s = 1; s <= 300; s++) day.read('heron', at('12:15') + s * 1000, 67 - 27 * Math.exp(-s / 10))
    const { bins } = day.outcomes('heron', '12:20')[0]!
    expect(bins!.belowWindowS).toBe(0)
    expect(bins!.unknownS).toBeGreaterThan(330)
    expect(bins!.unknownS).toBeLessThan(400)
    expect(bins!.inWindowS + bins!.unknownS).toBe(1200)
    expect(day.alarms()).toEqual([])
  })
})

test('an input is never changed, nor the state that was given', () => {
  const day = twoPots()
  const before = JSON.stringify(day.state)
  const kept = day.state
  day.read('heron', at('12:10:01'), 80).tickUntil(at('12:12'))
  expect(JSON.stringify(kept)).toBe(before)
})
