import { expect, test } from 'vitest'
import { NOTICES_KEPT, type StoveMessage, emptyStove, stepStove } from '../../../web/state/stove-state.ts'
import { alarmOf, noticeOf, potAt, stoveOf } from '../made-up.ts'

const NOW = Date.UTC(2026, 2, 3, 10)
const told = (messages: readonly StoveMessage[], lastId: number | null = null) =>
  messages.reduce(stepStove, emptyStove(lastId))
const picture = (change = {}): StoveMessage => ({ kind: 'stove', stove: stoveOf(NOW, change), hereMs: NOW })

test('before the first picture there are no pots, not none', () => {
  expect(told([]).pots).toBe(null)
  expect(told([picture({ pots: [] })]).pots).toEqual([])
})

test('a pulse moves the numbers of known pots and keeps their plan', () => {
  const numbers = { ...potAt(NOW + 1000), tempC: 84.2 }
  const state = told([
    picture(),
    { kind: 'pulse', pulse: { atMs: NOW + 1000, pots: [numbers], listeners: 2, trouble: null }, hereMs: NOW },
  ])
  expect(state.pots?.[0]?.tempC).toBe(84.2)
  expect(state.pots?.[0]?.title).toBe('Heron')
  expect(state.listeners).toBe(2)
})

test('a page that missed more than it is sent knows it, whatever comes after', () => {
  expect(told([picture()]).isMoreInRecord).toBe(false)
  expect(told([{ kind: 'left-out' }, picture()]).isMoreInRecord).toBe(true)
})

test('ages are told by the server’s clock, whatever this device’s says', () => {
  const state = told([{ kind: 'stove', stove: stoveOf(NOW), hereMs: NOW - 3_600_000 }])
  expect(state.aheadMs).toBe(3_600_000)
})

const reading = (atMs: number, tempC: number | null, verdict = 'good'): StoveMessage => ({
  kind: 'reading',
  reading: { probe: 'heron', atMs, tempC, rawC: tempC, verdict },
})
const last = (...messages: StoveMessage[]) => told([picture(), ...messages]).pots?.[0]?.lastReadingC

test('only a newer, believed reading moves a pot’s last reading', () => {
  expect(last(reading(NOW + 1, 84))).toBe(84)
  expect(last(reading(NOW - 1, 84))).toBe(83)
  expect(last(reading(NOW + 1, null))).toBe(83)
  expect(last(reading(NOW + 1, 85, 'start-up'))).toBe(83)
})

test('an alarm stands until it is over, and acknowledging it changes it in place', () => {
  const raised = told([picture(), { kind: 'alarm', alarm: alarmOf(41) }])
  expect(raised.alarms.map((a) => a.state)).toEqual(['unacknowledged'])
  const answered = alarmOf(42, { change: 'acknowledged', state: 'acknowledged' })
  const after = stepStove(raised, { kind: 'alarm', alarm: answered })
  expect(after.alarms.map((a) => a.state)).toEqual(['acknowledged'])
  const over = alarmOf(43, { change: 'cleared', state: 'normal' })
  expect(stepStove(after, { kind: 'alarm', alarm: over }).alarms).toEqual([])
})

test('a replayed older message never brings an answered alarm back', () => {
  const answered = alarmOf(42, { change: 'acknowledged', state: 'acknowledged' })
  const state = told([picture({ alarms: [answered] }), { kind: 'alarm', alarm: alarmOf(41) }])
  expect(state.alarms.map((a) => a.state)).toEqual(['acknowledged'])
})

test('the last id grows with what was received, so that a second cut loses nothing', () => {
  expect(told([picture()]).lastId).toBe(40)
  expect(told([picture()], 12).lastId).toBe(12)
  expect(told([picture(), { kind: 'notice', notice: noticeOf(13, NOW) }], 12).lastId).toBe(13)
  expect(told([picture(), { kind: 'alarm', alarm: alarmOf(45) }]).lastId).toBe(45)
})

test('the same notice twice is told once, newest first, and old ones make room', () => {
  const notices = Array.from({ length: NOTICES_KEPT + 5 }, (_, i) => noticeOf(i + 1, NOW))
  const state = told([
    picture(),
    ...[...notices, ...notices].map((notice) => ({ kind: 'notice', notice }) as const),
  ])
  expect(state.notices).toHaveLength(NOTICES_KEPT)
  expect(state.notices[0]?.id).toBe(NOTICES_KEPT + 5)
})

test('silence ends with the next pulse', () => {
  const silent = told([picture(), { kind: 'silence', silent: true }])
  expect(silent.silent).toBe(true)
  const pulse = { atMs: NOW, pots: [], listeners: 1, trouble: null }
  expect(stepStove(silent, { kind: 'pulse', pulse, hereMs: NOW }).silent).toBe(false)
})
