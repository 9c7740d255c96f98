import { connect } from 'node:net'
import { connectAsync, type MqttClient } from 'mqtt'
import { afterEach, expect, test } from 'vitest'
import { brokerSettings } from '#core/wire/bridge-link'
import { RealClock } from '../../../bridge/link/real-clock.ts'
import { type EmbeddedBroker, openEmbeddedBroker } from '../../../bridge/probe/embedded-broker.ts'
import { OwnBroker } from '../../../bridge/probe/own-broker.ts'
import { openMqtt } from '../../../bridge/probe/mqtt.ts'
import type { Source } from '../../../bridge/probe/source.ts'
import { FakeDoor } from '../../kit/fake-door.ts'
import { Listener } from '../../kit/fake-world.ts'
import { settingsOf } from '../../kit/settings-of.ts'
import { until } from '../../kit/until.ts'

const OWNER = { user: 'bridge', password: 'made at each start' }
const SETTINGS = brokerSettings.parse({ port: 0, users: [{ user: 'wren', password: 'wet-wool-7' }] })

let broker: EmbeddedBroker
const clients: MqttClient[] = []
let source: Source | null = null

afterEach(async () => {
  await source?.close()
  source = null
  await Promise.all(clients.splice(0).map((client) => client.endAsync(true)))
  await broker.close()
})

async function enter(username?: string, password?: string): Promise<MqttClient> {
  const client = await connectAsync(`mqtt://127.0.0.1:${broker.port}`, {
    reconnectPeriod: 0,
    ...(username === undefined ? {} : { username, password: password ?? '' }),
  })
  clients.push(client)
  return client
}

test('strangers, wrong passwords and the owner’s name without its password stay out', async () => {
  broker = await openEmbeddedBroker(SETTINGS, OWNER)
  await expect(enter()).rejects.toThrow(/authori[sz]ed/i)
  await expect(enter('wren', 'dry-wool')).rejects.toThrow(/authori[sz]ed/i)
  await expect(enter('bridge', 'guess')).rejects.toThrow(/authori[sz]ed/i)
})

test('a device publishes below its own name, and its readings reach the bridge', async () => {
  broker = await openEmbeddedBroker(SETTINGS, OWNER)
  const sink = new Listener()
  const url = `mqtt://127.0.0.1:${broker.port}`
  source = openMqtt(settingsOf('mqtt', { url, topic: '+/temperature', nameLevel: 0 }), sink, {
    clock: new RealClock(),
    random: Math.random,
    serial: new FakeDoor(),
    machineId: 'a-test-machine',
    brokerLogin: (asked) => (asked === url ? OWNER : null),
  })
  await until(() => sink.ways.at(-1)?.startsWith('open') ?? false)
  const wren = await enter('wren', 'wet-wool-7')
  await wren.publishAsync('wren/temperature', '71.2', { qos: 1 })
  await until(() => sink.samples.length === 1)
  expect(sink.heard).toEqual(['wren 71.2'])
})

test('a device can neither speak for another nor listen to all', async () => {
  broker = await openEmbeddedBroker(SETTINGS, OWNER)
  const owner = await enter(OWNER.user, OWNER.password)
  const heard: string[] = []
  owner.on('message', (topic) => heard.push(topic))
  await owner.subscribeAsync('#', { qos: 1 })
  const wren = await enter('wren', 'wet-wool-7')
  const refusal = await new Promise((resolve) => wren.subscribe('#', (error) => resolve(error)))
  expect(refusal).toBeInstanceOf(Error)
  wren.on('error', () => {})
  wren.publish('heron/temperature', '99')
  const again = await enter('wren', 'wet-wool-7')
  await again.publishAsync('wren/temperature', '70', { qos: 1 })
  await until(() => heard.includes('wren/temperature'))
  expect(heard).not.toContain('heron/temperature')
})

test('a port in use is told in one sentence', async () => {
  broker = await openEmbeddedBroker(SETTINGS, OWNER)
  await expect(openEmbeddedBroker({ ...SETTINGS, port: broker.port }, OWNER)).rejects.toThrow(
    /can't listen on 127.0.0.1:\d+: another program has it; set another "port"/,
  )
})

test('the bridge starts its broker by the settings, enters it by itself, and gives its password to no other', async () => {
  const said: string[] = []
  const own = new OwnBroker(new RealClock(), (sentence) => said.push(sentence))
  broker = await openEmbeddedBroker(SETTINGS, OWNER)
  await own.apply({ ...SETTINGS, port: broker.port })
  expect(said.at(-1)).toMatch(/another program has it/)
  await own.apply(SETTINGS)
  const port = /127.0.0.1:(\d+)/.exec(said.at(-1)!)![1]!
  expect(own.login(`mqtt://127.0.0.1:${port}`)).toMatchObject({ user: 'bridge' })
  expect(own.login(`mqtt://localhost:${port}`)).not.toBeNull()
  expect(own.login(`mqtt://192.0.2.7:${port}`)).toBeNull()
  expect(own.login('mqtt://127.0.0.1:1')).toBeNull()
  await own.apply(null)
  expect(own.login(`mqtt://127.0.0.1:${port}`)).toBeNull()
  await own.close()
})

// The broker itself lets such a socket go after half a minute, which is too late.
test('its end does not wait for a socket whose owner never said who it is', async () => {
  broker = await openEmbeddedBroker(SETTINGS, OWNER)
  const socket = connect(broker.port, '127.0.0.1')
  await new Promise<void>((resolve) => socket.once('connect', resolve))
  const gone = new Promise<string>((resolve) => socket.once('close', () => resolve('gone')))
  await broker.close()
  expect(await gone).toBe('gone')
})
