import { expect, test } from 'vitest'
import { Lamp } from '../../../server/tell/lamp.ts'
import { connectBroker } from '../../../server/tell/mqtt-broker.ts'
import { alarmMessage } from '../../kit/alarm-message.ts'
import { frozenBroker } from '../../kit/frozen-broker.ts'
import { HandClock } from '../../kit/hand-clock.ts'
import { until } from '../../kit/until.ts'

test('the end does not wait for a broker that takes nothing any more', async () => {
  const frozen = await frozenBroker()
  const connection = connectBroker({ url: frozen.url }, 'holdfast-test', () => undefined)
  const clock = new HandClock()
  const lamp = new Lamp(clock, connection)
  await until(() => connection.isConnected)
  lamp.show(alarmMessage())
  const stopped = lamp.stop()
  expect(frozen.connected()).toBe(1)
  clock.advance(1000)
  await stopped
  await until(() => frozen.connected() === 0)
  expect(clock.pending).toBe(0)
})

test('the end does not wait for a broker that was never there', async () => {
  const clock = new HandClock()
  const connection = connectBroker({ url: 'mqtt://127.0.0.1:9' }, 'holdfast-test', () => undefined)
  await new Lamp(clock, connection).stop()
  expect(clock.pending).toBe(0)
})
