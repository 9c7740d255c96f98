import { execFileSync } from 'node:child_process'
import { chmodSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { connectAsync, type MqttClient } from 'mqtt'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { RealClock } from '../../../bridge/link/real-clock.ts'
import { openMqtt } from '../../../bridge/probe/mqtt.ts'
import type { Source, World } from '../../../bridge/probe/source.ts'
import { FakeDoor } from '../../kit/fake-door.ts'
import { Listener } from '../../kit/fake-world.ts'
import { mosquitto, type TestBroker } from '../../kit/mosquitto.ts'
import { settingsOf } from '../../kit/settings-of.ts'
import { until } from '../../kit/until.ts'

let folder = ''
let broker: TestBroker
let device: MqttClient | null = null
let sources: Source[] = []

const world: World = {
  clock: new RealClock(),
  random: Math.random,
  serial: new FakeDoor(),
  machineId: 'a-test-machine',
  brokerLogin: () => null,
}

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'holdfast-mqtt-'))
  chmodSync(folder, 0o755)
})

afterEach(async () => {
  await Promise.all(sources.map((s) => s.close()))
  sources = []
  await device?.endAsync(true)
  device = null
  await broker.stop()
  rmSync(folder, { recursive: true })
})

async function subscribed(fields: object): Promise<Listener> {
  const sink = new Listener()
  const url = `mqtt://127.0.0.1:${broker.port}`
  sources.push(
    openMqtt(settingsOf('mqtt', { url, topic: 'studio/heron/temperature', ...fields }), sink, world),
  )
  await until(() => sink.ways.length > 0)
  return sink
}

const open = (sink: Listener) => expect(sink.ways.at(-1)).toMatch(/^open/)

test.each([4, 5])(
  'a number on a topic is a reading, a retained one is not (MQTT version %d)',
  async (version) => {
    broker = await mosquitto(folder)
    device = await connectAsync(`mqtt://127.0.0.1:${broker.port}`)
    await device.publishAsync('studio/heron/temperature', '53.7', { retain: true, qos: 1 })
    const sink = await subscribed({ version })
    open(sink)
    await device.publishAsync('studio/heron/temperature', '71.25', { retain: true, qos: 1 })
    await until(() => sink.samples.length === 1)
    expect(sink.heard).toEqual(['heron 71.25'])
    expect(sink.refusals).toEqual(['a retained message: the broker kept it, it may be old'])
  },
)

test('a wildcard topic carries many probes and the device’s last will is its silence', async () => {
  broker = await mosquitto(folder)
  const sink = await subscribed({
    topic: 'studio/+/temperature',
    gone: { topic: 'studio/+/state', payload: 'gone' },
  })
  device = await connectAsync(`mqtt://127.0.0.1:${broker.port}`, {
    will: { topic: 'studio/wren/state', payload: Buffer.from('gone'), qos: 1, retain: true },
  })
  await device.publishAsync('studio/wren/temperature', '64.1', { qos: 1 })
  await device.publishAsync('studio/otter/temperature', '30', { qos: 1 })
  await device.publishAsync('other/x/temperature', '99', { qos: 1 })
  await until(() => sink.samples.length === 2)
  expect(sink.heard).toEqual(['wren 64.1', 'otter 30'])
  device.stream.destroy()
  await until(() => sink.goneProbes.length === 1)
  expect(sink.goneProbes).toEqual(['wren'])
})

test('a broker that goes is told, and heals by itself', async () => {
  broker = await mosquitto(folder)
  const sink = await subscribed({})
  await broker.stop('SIGKILL')
  await until(() => sink.ways.at(-1)!.startsWith('trouble'))
  expect(sink.ways.at(-1)).toMatch(/the broker .* does not answer.*is it running/)
  await broker.start()
  await until(() => sink.ways.at(-1)!.startsWith('open'))
  device = await connectAsync(`mqtt://127.0.0.1:${broker.port}`)
  await device.publishAsync('studio/heron/temperature', '70', { qos: 1 })
  await until(() => sink.samples.length === 1)
})

test('user and password: the wrong one is told in words, the right one enters', async () => {
  const passwords = join(folder, 'passwords')
  writeFileSync(passwords, 'heron:wet-wool-7\n')
  execFileSync('mosquitto_passwd', ['-U', passwords])
  chmodSync(passwords, 0o644)
  broker = await mosquitto(folder, ['allow_anonymous false', `password_file ${passwords}`])
  const wrong = await subscribed({ user: 'heron', password: 'dry-wool' })
  expect(wrong.ways[0]).toMatch(/^trouble: .*refuses user or password/)
  const right = await subscribed({ name: 'wren', user: 'heron', password: 'wet-wool-7' })
  open(right)
})

test('TLS: a certificate of an authority that is named is trusted, another is not', async () => {
  const make = (...args: string[]) => execFileSync('openssl', args, { cwd: folder, stdio: 'ignore' })
  make(
    'req',
    '-x509',
    '-newkey',
    'rsa:2048',
    '-nodes',
    '-keyout',
    'ca.key',
    '-out',
    'ca.pem',
    '-days',
    '2',
    '-subj',
    '/CN=Saltmarsh test authority',
  )
  make(
    'req',
    '-newkey',
    'rsa:2048',
    '-nodes',
    '-keyout',
    'b.key',
    '-out',
    'b.csr',
    '-subj',
    '/CN=127.0.0.1',
    '-addext',
    'subjectAltName=IP:127.0.0.1',
  )
  writeFileSync(join(folder, 'ext'), 'subjectAltName=IP:127.0.0.1\n')
  make(
    'x509',
    '-req',
    '-in',
    'b.csr',
    '-CA',
    'ca.pem',
    '-CAkey',
    'ca.key',
    '-CAcreateserial',
    '-out',
    'b.pem',
    '-days',
    '2',
    '-extfile',
    'ext',
  )
  for (const file of ['b.key', 'b.pem', 'ca.pem']) chmodSync(join(folder, file), 0o644)
  broker = await mosquitto(folder, [
    'allow_anonymous true',
    `certfile ${folder}/b.pem`,
    `keyfile ${folder}/b.key`,
  ])
  const url = `mqtts://127.0.0.1:${broker.port}`
  open(await subscribed({ url, caFile: join(folder, 'ca.pem') }))
  const stranger = await subscribed({ name: 'wren', url })
  expect(stranger.ways[0]).toMatch(/^trouble: .*certificate that is not trusted.*caFile/)
  const noFile = await subscribed({ name: 'otter', url, caFile: join(folder, 'none.pem') })
  expect(noFile.ways[0]).toMatch(/^trouble: caFile .* can't be read/)
})

test('two bridges with one name see that they throw each other out, and one of them stops', async () => {
  broker = await mosquitto(folder)
  const first = await subscribed({})
  const second = await subscribed({})
  const said = () =>
    [...first.ways, ...second.ways].find((w) => w.includes('a second bridge uses the same name'))
  await until(() => said() !== undefined, { withinMs: 60_000 })
  expect(said()).toMatch(/stop one of the two/)
})
