// The bridge by itself, side by side with the bare libraries in one run:
// lines a second through one serial source, processor time for 100 probes at 1 Hz, and how an outbox of 12 h × 8 probes
// (345,600 readings) drains into a real server while live readings go on.
//
//   npm run bench:bridge             (about two minutes; ROWS=34560 for a tenth)
//
// Prints figures and ratios; asserts nothing.
import { spawn } from 'node:child_process'
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { cpus, tmpdir } from 'node:os'
import { join } from 'node:path'
import { PassThrough } from 'node:stream'
import Database from 'better-sqlite3'
import { connect } from 'mqtt'
import { ReadlineParser } from 'serialport'
import { decodeProbe, type SettingsOf } from '#core/wire/probe-settings'
import { HandOver, type SendResult } from '../../bridge/link/hand-over.ts'
import { Outbox } from '../../bridge/link/outbox.ts'
import type { OutboxRow } from '../../bridge/link/outbox-rows.ts'
import { RealClock } from '../../bridge/link/real-clock.ts'
import { sendReadings } from '../../bridge/link/send-readings.ts'
import { ServerWay } from '../../bridge/link/server-way.ts'
import { openMqtt } from '../../bridge/probe/mqtt.ts'
import { openSerialLines } from '../../bridge/probe/serial-lines.ts'
import type { Sink, World } from '../../bridge/probe/source.ts'
import { FakeDoor } from '../kit/fake-door.ts'
import { mosquitto } from '../kit/mosquitto.ts'
import { buildProgram, Program } from '../kit/program.ts'

const ROWS = Number(process.env['ROWS'] ?? 345_600)
const PROBES = 8
const folder = mkdtempSync(join(tmpdir(), 'holdfast-bench-'))
const clock = new RealClock()
const door = new FakeDoor()
const world: World = { clock, random: Math.random, serial: door, machineId: 'bench', brokerLogin: () => null }

const wait = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms))
const sinkTo = (sample: Sink['sample']): Sink => ({
  sample,
  refused: () => {},
  way: () => {},
  gone: () => {},
  battery: () => {},
})

function settingsOf<K extends 'mqtt' | 'serial-lines'>(input: {
  kind: K
  [field: string]: unknown
}): SettingsOf<K> {
  const decoded = decodeProbe({ name: 'bench', ...input })
  if (typeof decoded === 'string') throw new Error(decoded)
  return decoded as SettingsOf<K>
}

/** Lines a second through one serial source, the port's chunks handed in: 64 bytes, as a USB adapter gives them. */
async function lines(): Promise<void> {
  const text = Array.from({ length: 20_000 }, (_, i) => `T=${(60 + (i % 100) / 10).toFixed(2)}\r\n`).join('')
  const chunks = text.match(/[\s\S]{1,64}/g)!
  door.plugIn({ path: '/dev/bench' })
  let found = 0
  const source = openSerialLines(
    settingsOf({ kind: 'serial-lines', path: '/dev/bench', line: 'T={tempC}' }),
    sinkTo(() => found++),
    world,
  )
  await wait(20)
  const ours: number[] = []
  const bare: number[] = []
  for (let round = 0; round < 7; round++) {
    const startMs = performance.now()
    for (const chunk of chunks) door.feed('/dev/bench', chunk)
    ours.push(20_000 / ((performance.now() - startMs) / 1000))
    bare.push(await bareLines(chunks))
  }
  await source.close()
  console.log(
    `lines a second: ours ${Math.round(Math.max(...ours))}, bare parser ${Math.round(Math.max(...bare))}, found ${found}`,
  )
}

async function bareLines(chunks: readonly string[]): Promise<number> {
  const stream = new PassThrough()
  let sum = 0
  let count = 0
  const parser = stream.pipe(new ReadlineParser({ delimiter: '\r\n' }))
  const startMs = performance.now()
  const done = new Promise<void>((resolve) => {
    parser.on('data', (line: string) => {
      sum += Number(line.slice(2))
      if (++count === 20_000) resolve()
    })
  })
  for (const chunk of chunks) stream.write(Uint8Array.from(chunk, (c) => c.charCodeAt(0)))
  await done
  stream.destroy()
  if (!(sum > 0)) throw new Error('expected numbers')
  return 20_000 / ((performance.now() - startMs) / 1000)
}

/** Processor time of this process for 100 probes at 1 Hz over MQTT, with every reading committed to the outbox. */
async function processor(): Promise<void> {
  const broker = await mosquitto(folder)
  const url = `mqtt://127.0.0.1:${broker.port}`
  const script = `
    const client = require('mqtt').connect('${url}')
    let n = 0
    client.on('connect', () => setInterval(() => client.publish('p/' + (n++ % 100), (60 + (n % 77) / 10).toFixed(2)), 10))`
  const devices = spawn(process.execPath, ['-e', script], {
    stdio: 'ignore',
    cwd: join(import.meta.dirname, '../..'),
  })
  await wait(1000)

  const outbox = new Outbox({
    file: join(folder, 'cpu.sqlite'),
    clock,
    boot: 'b',
    onReady: () => {},
    onTrouble: console.error,
  })
  const source = openMqtt(
    settingsOf({ kind: 'mqtt', url, topic: 'p/+', nameLevel: 1 }),
    sinkTo((s) => outbox.put({ ...s, atMs: Math.round(s.atMs) })),
    world,
  )
  const ours = await processorShare(10_000)
  await source.close()
  outbox.close()

  const db = new Database(join(folder, 'bare.sqlite'))
  db.pragma('journal_mode = WAL')
  db.pragma('synchronous = FULL')
  db.exec('CREATE TABLE waiting (id INTEGER PRIMARY KEY, probe TEXT, at_ms INTEGER, raw_c REAL)')
  const insert = db.prepare('INSERT INTO waiting (probe, at_ms, raw_c) VALUES (?, ?, ?)')
  const client = connect(url)
  client.on('connect', () => client.subscribe('p/+'))
  client.on('message', (topic, payload) => insert.run(topic, Date.now(), Number(payload.toString())))
  const bare = await processorShare(10_000)
  await client.endAsync(true)
  db.close()
  devices.kill()
  await broker.stop()
  console.log(
    `processor for 100 probes at 1 Hz: ours ${ours.toFixed(1)} %, bare ${bare.toFixed(1)} % of one core`,
  )
}

async function processorShare(ms: number): Promise<number> {
  await wait(1000)
  const before = process.cpuUsage()
  const startMs = performance.now()
  await wait(ms)
  const { user, system } = process.cpuUsage(before)
  return ((user + system) / 1000 / (performance.now() - startMs)) * 100
}

async function drain(): Promise<void> {
  buildProgram()
  const data = join(folder, 'data')
  mkdirSync(data)
  writeFileSync(join(data, 'holdfast.json'), '{}')
  const server = new Program(['serve', '--no-bridge', '--data', data, '--port', '0'])
  await server.start(/ready/)
  const way = new ServerWay(new URL(/ready (\S+)/.exec(server.output)![1]!), null)
  const bareS = [await bareDrain(way, 'q')]

  let handOver: HandOver | null = null
  const outbox = new Outbox({
    file: join(folder, 'drain.sqlite'),
    clock,
    boot: 'b',
    onReady: () => handOver?.wake(),
    onTrouble: console.error,
  })
  const beganMs = clock.nowMs() - (ROWS / PROBES) * 1000
  for (let i = 0; i < ROWS; i++) {
    const rawC = 70 + 5 * Math.sin(i / 9000)
    outbox.put({
      kind: 'temp',
      probe: `p${i % PROBES}`,
      atMs: beganMs + Math.floor(i / PROBES) * 1000 - 10_000,
      rawC,
    })
    if (i % 5000 === 0) outbox.commit()
  }
  outbox.commit()
  const lastOldId = outbox.topId
  const delaysMs: number[] = []
  const send = async (rows: readonly OutboxRow[]): Promise<SendResult> => {
    const result = await sendReadings(way, 'bench', rows, () => 0)
    for (const r of rows) if (r.id > lastOldId) delaysMs.push(clock.nowMs() - r.sample.atMs)
    return result
  }
  const live = setInterval(() => {
    for (let p = 0; p < PROBES; p++)
      outbox.put({ kind: 'temp', probe: `p${p}`, atMs: clock.nowMs(), rawC: 70 })
  }, 1000)
  const startMs = performance.now()
  handOver = new HandOver({
    outbox,
    clock,
    random: Math.random,
    send,
    onTrouble: (s) => s !== null && console.error(s),
  })
  handOver.wake()
  while (outbox.counts().waiting > 0) await wait(50)
  const oursS = (performance.now() - startMs) / 1000
  clearInterval(live)
  await handOver.stop()
  outbox.close()
  bareS.push(await bareDrain(way, 'r'))
  const stored = await storedTotal(way)
  way.close()
  await server.stop()
  console.log(
    `drain of ${ROWS} readings: ours ${oursS.toFixed(1)} s (${Math.round(ROWS / oursS)} a second), ` +
      `bare packs of 1000 to the same server before and after ${bareS.map((t) => t.toFixed(1)).join(' and ')} s; live readings meanwhile ${delaysMs.length}, ` +
      `most held up ${delaysMs.length === 0 ? '–' : Math.max(...delaysMs)} ms; stored in all ${stored}`,
  )
}

async function storedTotal(way: ServerWay): Promise<string> {
  const metrics = await way.ask({ method: 'GET', path: '/metrics' })
  return (metrics.ok && /holdfast_readings_stored_total (\d+)/.exec(metrics.body)?.[1]) || 'unknown'
}

/** The same number of readings as ready-made packs, one after the other, with no outbox. */
async function bareDrain(way: ServerWay, prefix: string): Promise<number> {
  const startMs = performance.now()
  const bt = Date.now() / 1000 - ROWS / PROBES - 1e6
  for (let from = 0; from < ROWS; from += 1000) {
    const pack = Array.from({ length: Math.min(1000, ROWS - from) }, (_, j) => {
      const i = from + j
      const base = j === 0 ? { bn: 'bare/', bu: 'Cel', bt } : {}
      return {
        ...base,
        n: `${prefix}${i % PROBES}`,
        t: Math.floor(i / PROBES),
        v: 70 + 5 * Math.sin(i / 9000),
        boot: 'x',
        seq: Math.floor(i / PROBES),
      }
    })
    await way.ask({
      method: 'POST',
      path: '/api/readings',
      headers: { 'content-type': 'application/senml+json' },
      body: JSON.stringify(pack),
    })
  }
  return (performance.now() - startMs) / 1000
}

console.log(`Node ${process.version}, ${cpus().length} × ${cpus()[0]?.model ?? '?'}`)
await lines()
await processor()
await drain()
rmSync(folder, { recursive: true })
