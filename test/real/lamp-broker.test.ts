import { type AddressInfo, createServer } from 'node:net'
import { type MqttClient, connectAsync } from 'mqtt'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { Lamp } from '../../server/tell/lamp.ts'
import { connectBroker } from '../../server/tell/mqtt-broker.ts'
import { alarmMessage } from '../kit/alarm-message.ts'
import { HandClock } from '../kit/hand-clock.ts'
import { mosquitto, type TestBroker } from '../kit/mosquitto.ts'
import { tempFolder } from '../kit/temp-folder.ts'

let broker: TestBroker
const clients: MqttClient[] = []
const troubles: string[] = []

beforeEach(async () => {
  broker = await mosquitto(tempFolder())
  troubles.length = 0
})
afterEach(async () => {
  await Promise.all(clients.splice(0).map((c) => c.endAsync(true)))
  await broker.stop()
})

/** A lamp of somebody else: what it has heard, newest last, by topic. */
async function listener() {
  const heard = new Map<string, string[]>()
  const client = await connectAsync(`mqtt://127.0.0.1:${broker.port}`)
  clients.push(client)
  client.on('message', (topic, payload) => {
    heard.set(topic, [...(heard.get(topic) ?? []), payload.toString()])
  })
  await client.subscribeAsync('holdfast/#', { qos: 1 })
  return (topic: string) => heard.get(topic)?.at(-1)
}

const watchLamp = () => {
  const connection = connectBroker({ url: `mqtt://127.0.0.1:${broker.port}` }, 'holdfast-test', (s) =>
    troubles.push(s),
  )
  return new Lamp(new HandClock(), connection)
}

test('a lamp hears the state, a lamp that comes later hears it too, and the end of the watch', async () => {
  const early = await listener()
  const lamp = watchLamp()
  lamp.show(alarmMessage())
  await expect.poll(() => early('holdfast/heron/level')).toBe('3')
  lamp.beat()
  await expect.poll(() => early('holdfast/alive')).toBe('1')
  const late = await listener()
  await expect.poll(() => late('holdfast/heron/alarm')).toContain('above-ceiling')
  await lamp.stop()
  await expect.poll(() => early('holdfast/alive')).toBe('0')
})

test('when the connection breaks off the broker itself says that the watch is gone', async () => {
  const lamp = await listener()
  const relay = await relayTo(broker.port)
  const connection = connectBroker(
    { url: `mqtt://127.0.0.1:${relay.port}` },
    'holdfast-test',
    () => undefined,
  )
  const watch = new Lamp(new HandClock(), connection)
  await expect.poll(() => connection.isConnected).toBe(true)
  watch.beat()
  await expect.poll(() => lamp('holdfast/alive')).toBe('1')
  relay.cut()
  await expect.poll(() => lamp('holdfast/alive')).toBe('0')
  await watch.stop()
})

/** A wire between two ports that can be cut. */
async function relayTo(target: number) {
  const { connect } = await import('node:net')
  const server = createServer((near) => {
    const far = connect(target, '127.0.0.1')
    near.pipe(far).pipe(near)
    for (const end of [near, far]) end.on('error', () => undefined)
    cuts.push(() => {
      near.destroy()
      far.destroy()
    })
  })
  const cuts: (() => void)[] = []
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  const cut = () => {
    server.close()
    for (const fn of cuts) fn()
  }
  return { port: (server.address() as AddressInfo).port, cut }
}

test('a broker that is away is told of once, and what stands is there when it comes', async () => {
  await broker.stop()
  const lamp = watchLamp()
  await expect.poll(() => troubles.length).toBe(1)
  expect(troubles[0]).toMatch(/^the lamps' broker 127\.0\.0\.1:\d+ can't be reached: /)
  lamp.show(alarmMessage())
  await broker.start()
  const heard = await listener()
  await expect.poll(() => heard('holdfast/heron/level')).toBe('3')
  await lamp.stop()
})
