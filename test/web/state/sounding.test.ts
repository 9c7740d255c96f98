import { expect, test } from 'vitest'
import { defaultPage } from '../page-of.ts'
import { soundingNow } from '../../../web/state/sounding-now.ts'
import { soundingOf } from '../../../web/state/sounding.ts'
import { emptyStove } from '../../../web/state/stove-state.ts'
import type { EveningLive } from '#core/watch/pot-numbers'
import { alarmOf, noticeOf, potAt } from '../made-up.ts'

const NOW = Date.UTC(2026, 2, 3, 10)
const heard = (change: Partial<ReturnType<typeof emptyStove>>) =>
  soundingOf({ ...emptyStove(null), ...change }, NOW)

test('an at-once alarm loops until somebody says that they are there', () => {
  expect(heard({ alarms: [alarmOf(1)] })).toEqual({ kind: 'loop', rhythm: 'at-once' })
  expect(heard({ alarms: [alarmOf(1, { state: 'acknowledged' })] })).toEqual({ kind: 'quiet' })
  expect(heard({ alarms: [alarmOf(1, { state: 'shelved' })] })).toEqual({ kind: 'quiet' })
})

test('a soon alarm is one tone, known by its alarm and not by its message', () => {
  const soon = { urgency: 'soon', alarmId: 9 } as const
  const tone = { kind: 'tone', rhythm: 'soon', key: 'alarm-9' }
  expect(heard({ alarms: [alarmOf(1, soon)] })).toEqual(tone)
  expect(heard({ alarms: [alarmOf(2, soon)] })).toEqual(tone)
  expect(heard({ alarms: [alarmOf(1, soon), alarmOf(3)] })).toEqual({ kind: 'loop', rhythm: 'at-once' })
})

const soonAt = (alarmId: number, change: object = {}) =>
  alarmOf(alarmId, { urgency: 'soon', alarmId, alarm: 'above-window', ...change })

test('one trouble of one pot is one tone, however many alarms it raises, until somebody answers', () => {
  const heading = soonAt(5, { alarm: 'heading-above-window' })
  const first = { kind: 'tone', rhythm: 'soon', key: 'alarm-5' }
  expect(heard({ alarms: [heading] })).toEqual(first)
  expect(heard({ alarms: [heading, soonAt(6)] })).toEqual(first)
  expect(heard({ alarms: [{ ...heading, state: 'returned-unacknowledged' }, soonAt(6)] })).toEqual(first)
  expect(heard({ alarms: [{ ...heading, state: 'acknowledged' }, soonAt(6)] })).toMatchObject({
    key: 'alarm-6',
  })
})

test('another trouble at the same pot, or the same at another, is a tone of its own', () => {
  const warm = soonAt(5, { alarm: 'above-window' })
  expect(heard({ alarms: [warm, soonAt(7, { alarm: 'probe-silent' })] })).toMatchObject({ key: 'alarm-7' })
  const other = soonAt(8, { alarm: 'above-window', pot: 'wren' })
  expect(heard({ alarms: [warm, other] })).toMatchObject({ key: 'alarm-8' })
})

const evening = (step: EveningLive['step'], isSet = false) =>
  heard({ pots: [potAt(NOW, { potId: 'heron', evening: { step, dial: 2.5, lid: 'on', isSet } })] })

test('a new step of a guided evening is one tone, until the dyer says that it is set', () => {
  expect(evening('low')).toEqual({ kind: 'tone', rhythm: 'soon', key: 'evening-heron-low' })
  expect(evening('off')).toMatchObject({ key: 'evening-heron-off' })
  expect(evening('low', true)).toEqual({ kind: 'quiet' })
  expect(evening('full')).toEqual({ kind: 'quiet' })
})

test('a dead server sounds over everything else', () => {
  expect(heard({ silent: true, alarms: [alarmOf(1)] })).toEqual({ kind: 'loop', rhythm: 'server-silent' })
})

test('a notice that the dyer waits for is one bell; one from an hour ago is none', () => {
  expect(heard({ notices: [noticeOf(5, NOW - 1000)] })).toEqual({
    kind: 'tone',
    rhythm: 'notice',
    key: 'notice-5',
  })
  expect(heard({ notices: [noticeOf(5, NOW - 3_600_000)] })).toEqual({ kind: 'quiet' })
})

test('what stands is heard the moment the sound is switched on', () => {
  const page = defaultPage(NOW)
  page.stove.value = { ...page.stove.value, alarms: [alarmOf(1)] }
  expect(soundingNow(page)).toEqual({ kind: 'quiet' })
  page.soundOn.value = true
  expect(soundingNow(page)).toEqual({ kind: 'loop', rhythm: 'at-once' })
})

test('hushing a dead server stops its shout and nothing else; the test alarm loops', () => {
  const page = defaultPage(NOW)
  page.soundOn.value = true
  page.stove.value = { ...page.stove.value, silent: true }
  page.hushed.value = true
  expect(soundingNow(page)).toEqual({ kind: 'quiet' })
  page.stove.value = { ...page.stove.value, silent: false }
  page.testing.value = true
  expect(soundingNow(page)).toEqual({ kind: 'loop', rhythm: 'at-once' })
})
