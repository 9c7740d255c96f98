import { existsSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import { connect } from 'mqtt'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { seededRandom } from '#core/measure/seeded-random'
import { freePort, mosquitto, type TestBroker } from '../../kit/mosquitto.ts'
import { buildProgram, Program } from '../../kit/program.ts'
import { type Cable, cable } from '../../kit/pty.ts'
import { until } from '../../kit/until.ts'

/** `SOAK_KILLS=200` for the whole soak of some minutes; `SOAK_SEED` repeats one. */
const KILLS = Number(process.env['SOAK_KILLS'] ?? 25)
const SEED = Number(process.env['SOAK_SEED'] ?? 20261125)

let folder = ''
let broker: TestBroker
let usb: Cable
let server: Program
let bridge: Program
let url = ''

beforeAll(async () => {
  buildProgram()
  folder = mkdtempSync(join(tmpdir(), 'holdfast-soak-'))
  broker = await mosquitto(folder)
  usb = await cable(folder)
  const port = await freePort()
  url = `http://127.0.0.1:${port}`
  mkdirSync(join(folder, 'server'))
  const probes = [
    { name: 'heron', kind: 'serial-lines', path: usb.port, line: 'T={tempC}' },
    { name: 'wren', kind: 'mqtt', url: `mqtt://127.0.0.1:${broker.port}`, topic: 'studio/wren' },
  ]
  writeFileSync(join(folder, 'server', 'holdfast.json'), JSON.stringify({ probes }))
  server = new Program(['serve', '--no-bridge', '--data', join(folder, 'server'), '--port', String(port)])
  bridge = new Program(['bridge', '--server', url, '--data', join(folder, 'far'), '--name', 'far'])
})

afterAll(async () => {
  await bridge.stop()
  await server.stop()
  await broker.stop()
  await usb.pull()
  rmSync(folder, { recursive: true })
})

/** Values that rise with each one sent, so that a lost, doubled or misplaced one shows. */
function feed(): { readonly stop: () => void; readonly sent: () => number } {
  let n = 0
  const device = connect(`mqtt://127.0.0.1:${broker.port}`, { reconnectPeriod: 100, queueQoSZero: false })
  device.on('error', () => {})
  const timer = setInterval(() => {
    const value = (20 + n++ / 1000).toFixed(3)
    usb.send(`T=${value}\n`)
    if (device.connected) device.publish('studio/wren', value, { qos: 0 })
  }, 25)
  return {
    sent: () => n,
    stop: () => {
      clearInterval(timer)
      device.end(true)
    },
  }
}

interface Identity {
  readonly probe: string
  readonly boot: string
  readonly seq: number
}

/** What the killed bridge had taken in and not yet handed over. */
function leftInOutbox(): readonly Identity[] {
  const file = join(folder, 'far', 'bridge', 'outbox.sqlite')
  if (!existsSync(file)) return []
  const db = new Database(file)
  const rows = db.prepare<[], Identity>('SELECT probe, boot, seq FROM waiting').all()
  db.close()
  return rows
}

/** Every (probe, boot) of the server's file with the counters it has, from the bits that it keeps. */
function storedSerials(): ReadonlyMap<string, ReadonlySet<number>> {
  const db = new Database(join(folder, 'server', 'holdfast.db'), { readonly: true })
  const rows = db
    .prepare<[], { name: string; boot: string; chunk: number; bits: Buffer }>(
      'SELECT name, boot, chunk, bits FROM seen JOIN probe ON probe.id = probe_id',
    )
    .all()
  db.close()
  const all = new Map<string, Set<number>>()
  for (const { name, boot, chunk, bits } of rows) {
    const set = all.get(`${name} ${boot}`) ?? new Set<number>()
    bits.forEach((byte, i) => {
      for (let bit = 0; bit < 8; bit++) if (byte & (1 << bit)) set.add(chunk * 1024 + i * 8 + bit)
    })
    all.set(`${name} ${boot}`, set)
  }
  return all
}

const get = async (path: string): Promise<unknown> => (await fetch(url + path)).json()

async function storedValues(probe: string): Promise<readonly number[]> {
  const { readings } = (await get(`/api/readings?probe=${probe}`)) as {
    readings: readonly { kind: string; atMs: number; rawC: number }[]
  }
  return readings.toSorted((a, b) => a.atMs - b.atMs).map((r) => r.rawC)
}

async function waiting(): Promise<number> {
  const bridges = (await get('/api/bridges')) as readonly { state: { outbox: { waiting: number } } }[]
  return bridges[0]?.state.outbox.waiting ?? Infinity
}

test(`${KILLS} random kills of bridge, server and broker lose, double and reorder nothing (seed ${SEED})`, async () => {
  const random = seededRandom(SEED)
  const pause = (leastMs: number, mostMs: number) =>
    new Promise((resolve) => setTimeout(resolve, leastMs + random() * (mostMs - leastMs)))
  const takenIn: Identity[] = []
  const kills = { bridge: 0, server: 0, broker: 0 }

  const kill = async (): Promise<void> => {
    const dice = random()
    if (dice < 0.45) {
      kills.bridge++
      await bridge.stop('SIGKILL')
      takenIn.push(...leftInOutbox())
      await pause(0, 150)
      await bridge.start(/bridge running/)
    } else if (dice < 0.8) {
      kills.server++
      await server.stop('SIGKILL')
      await pause(0, 500)
      // Sometimes it is killed again before it is up.
      await server.start(random() < 0.7 ? /ready/ : undefined)
    } else {
      kills.broker++
      await broker.stop('SIGKILL')
      await pause(0, 300)
      await broker.start()
    }
  }

  await server.start(/ready/)
  await bridge.start(/bridge running/)
  const feeding = feed()
  await until(() => feeding.sent() > 40)
  for (let i = 0; i < KILLS; i++) {
    await kill()
    await pause(100, 900)
  }
  await pause(1500, 1500)
  feeding.stop()

  let left = Infinity
  for (let i = 0; i < 200 && left !== 0; i++) {
    left = await waiting().catch(() => Infinity)
    await new Promise((resolve) => setTimeout(resolve, 100))
  }
  expect(left).toBe(0)
  const heron = await storedValues('heron')
  const wren = await storedValues('wren')
  await bridge.stop()
  await server.stop()

  const serials = storedSerials()
  const lost = takenIn.filter(({ probe, boot, seq }) => !serials.get(`${probe} ${boot}`)?.has(seq))
  expect(lost).toEqual([])
  for (const [who, seqs] of serials) {
    expect([who, Math.max(...seqs) + 1]).toEqual([who, seqs.size])
  }
  for (const values of [heron, wren]) {
    expect(new Set(values).size).toBe(values.length)
    expect(values).toEqual(values.toSorted((a, b) => a - b))
  }
  // The soak is only worth something when much was taken in between the kills, and every kind of kill happened.
  expect(heron.length).toBeGreaterThan(3 * KILLS)
  expect(wren.length).toBeGreaterThan(3 * KILLS)
  expect(Math.min(kills.bridge, kills.server, kills.broker)).toBeGreaterThan(0)
  console.log(
    `soak: ${JSON.stringify(kills)}, sent ${feeding.sent()}, stored ${heron.length} + ${wren.length}`,
  )
}, 900_000)
