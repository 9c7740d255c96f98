import { expect, test } from 'vitest'
import { topicPart } from '#core/wire/lamp-topics'
import type { AlarmMessage } from '#core/wire/live'
import { HandClock } from '../../kit/hand-clock.ts'
import { alarmMessage } from '../../kit/alarm-message.ts'
import { FakeBroker } from '../../kit/fake-broker.ts'
import { Lamp } from '../../../server/tell/lamp.ts'

function lampOn(isConnected = true) {
  const clock = new HandClock()
  const broker = new FakeBroker()
  const lamp = new Lamp(clock, broker)
  if (isConnected) broker.connect()
  const level = (pot = 'heron') => broker.retained.get(`holdfast/${pot}/level`)
  return { clock, broker, lamp, level }
}

const answered: Partial<AlarmMessage> = { change: 'acknowledged', state: 'acknowledged' }
const over: Partial<AlarmMessage> = { change: 'cleared', state: 'normal' }

test('level by level: raised at once 3, unanswered 4, acknowledged 1, over 0', () => {
  const { broker, lamp, level } = lampOn()
  lamp.show(alarmMessage())
  expect(level()).toBe('3')
  lamp.makeLoud(1)
  expect(level()).toBe('4')
  lamp.show(alarmMessage(answered))
  expect(level()).toBe('1')
  lamp.show(alarmMessage(over))
  expect(level()).toBe('0')
  expect(JSON.parse(broker.retained.get('holdfast/heron/alarm')!)).toMatchObject({ level: 0, alarms: 0 })
})

test('the topic of a pot tells its worst alarm and how many there are', () => {
  const { broker, lamp } = lampOn()
  lamp.show(alarmMessage({ alarmId: 2, alarm: 'no-heat', urgency: 'soon' }))
  lamp.show(alarmMessage())
  lamp.show(alarmMessage({ alarmId: 3, alarm: 'probe-stuck', urgency: 'morning' }))
  expect(JSON.parse(broker.retained.get('holdfast/heron/alarm')!)).toEqual({
    level: 3,
    alarm: 'above-ceiling',
    urgency: 'at-once',
    state: 'unacknowledged',
    sinceAt: '2026-03-12T14:32:00.000Z',
    text: alarmMessage().text,
    alarms: 2,
  })
})

test('one lamp for the studio shows the worst of all pots', () => {
  const { broker, lamp, level } = lampOn()
  lamp.show(alarmMessage({ urgency: 'soon' }))
  lamp.show(alarmMessage({ alarmId: 2, pot: 'wren' }))
  expect([level(), level('wren'), broker.retained.get('holdfast/level')]).toEqual(['2', '3', '3'])
  lamp.show(alarmMessage({ alarmId: 2, pot: 'wren', ...over }))
  expect(broker.retained.get('holdfast/level')).toBe('2')
})

test('shelved and out of service are quiet', () => {
  const { lamp, level } = lampOn()
  lamp.show(alarmMessage({ urgency: 'soon' }))
  lamp.show(alarmMessage({ urgency: 'soon', change: 'shelved', state: 'shelved' }))
  expect(level()).toBe('0')
})

test('while the broker is away nothing is sent; when it is back each topic is told once, as it stands', () => {
  const { broker, lamp, level } = lampOn(false)
  lamp.know(['heron', 'wren'])
  lamp.show(alarmMessage())
  lamp.show(alarmMessage(answered))
  lamp.beat()
  broker.connect()
  expect(broker.published).toHaveLength(5)
  expect([level(), level('wren')]).toEqual(['1', '0'])
})

test('the beat comes every ten seconds as long as the loop asks, at once after a reconnect, and never by itself', () => {
  const { clock, broker, lamp } = lampOn()
  const beats = () => broker.published.filter((p) => p === 'holdfast/alive 1').length
  for (let second = 0; second < 30; second++) {
    lamp.beat()
    clock.advance(1000)
  }
  expect(beats()).toBe(3)
  broker.connect()
  lamp.beat()
  expect(beats()).toBe(4)
  clock.advance(60_000)
  expect([beats(), clock.pending]).toEqual([4, 0])
})

test('stopping says so', async () => {
  const { broker, lamp } = lampOn()
  lamp.beat()
  await lamp.stop()
  expect(broker.retained.get('holdfast/alive')).toBe('0')
})

test('a test shows for ten seconds and then gives the lamp back', () => {
  const { clock, broker, lamp } = lampOn()
  lamp.test()
  expect(broker.retained.get('holdfast/level')).toBe('3')
  clock.advance(10_000)
  expect([broker.retained.get('holdfast/level'), clock.pending]).toEqual(['0', 0])
})

test('an alarm that comes during a test is not hidden by it', () => {
  const { broker, lamp, clock } = lampOn()
  lamp.test()
  lamp.show(alarmMessage())
  lamp.makeLoud(1)
  expect(broker.retained.get('holdfast/level')).toBe('4')
  clock.advance(10_000)
  expect(broker.retained.get('holdfast/level')).toBe('4')
})

// OASIS MQTT 3.1.1 §4.7: `/` separates, `+` and `#` are wildcards, a leading `$` is the broker's own, no U+0000.
test.each([
  ['heron', 'heron'],
  ['long pot / no. 2', 'long-pot-no.-2'],
  ['#', 'pot'],
  ['$SYS/x', 'SYS-x'],
  ['a+b\u0000c', 'a-b-c'],
  ['Färbetopf', 'Färbetopf'],
])('the pot "%s" has the topic part "%s"', (pot, part) => {
  expect(topicPart(pot)).toBe(part)
})
