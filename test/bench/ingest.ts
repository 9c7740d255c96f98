/**
 * Readings stored a second through the whole intake (HTTP, SenML, verdict, correction, commit), side by side with
 * bare batched inserts into the same database file with the same durability, in one run.
 *
 *   npm run bench:ingest
 *
 * Packs of 500: what a bridge sends while it works up an outage. Prints figures and the ratio; asserts nothing.
 */
import { fork } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, rmSync } from 'node:fs'
import { cpus, tmpdir } from 'node:os'
import { join } from 'node:path'
import { Agent, request } from 'node:http'
import { performance } from 'node:perf_hooks'
import { fileURLToPath } from 'node:url'
import { pino } from 'pino'
import { decodeSettings } from '#core/wire/settings'
import { RealClock } from '../../bridge/link/real-clock.ts'
import { startServer } from '../../server/main.ts'
import { openDatabase } from '../../server/store/sqlite/open-database.ts'
import { openSqliteStore } from '../../server/store/sqlite/open-sqlite-store.ts'

const PACK = 500
const PACKS = 400
const PROBES = 8
const ROUNDS = 3
const T0 = Date.UTC(2026, 0, 10)

/** Reading `n` of the run: probes in turn, one a second each. */
const reading = (n: number) => ({
  probe: `probe-${n % PROBES}`,
  atMs: T0 + Math.floor(n / PROBES) * 1000,
  rawC: Math.round((70 + 10 * Math.sin(n / 5000)) * 100) / 100,
})

function packs(round: number): readonly string[] {
  return Array.from({ length: PACKS }, (_, p) =>
    JSON.stringify(
      Array.from({ length: PACK }, (_unused, i) => {
        const n = (round * PACKS + p) * PACK + i
        const { probe, atMs, rawC } = reading(n)
        const base = i === 0 ? { bn: 'pi/', bu: 'Cel', bt: T0 / 1000 } : {}
        return { ...base, n: probe, t: (atMs - T0) / 1000, v: rawC, boot: 'bench', seq: n }
      }),
    ),
  )
}

/** What a way to store readings came to: readings a second, and processor time of this program a reading, µs. */
interface Speed {
  readonly perS: number
  readonly cpuUs: number
}

/** Bare: the same rows into a table of the same shape in the same file, one transaction a pack. */
async function bare(file: string, round: number): Promise<Speed> {
  const db = openDatabase(file)
  db.exec(`create table if not exists bare (probe_id integer not null, at_ms integer not null, nth integer not null,
    raw_c real, temp_c real, verdict integer not null, found text, device_ms integer,
    primary key (probe_id, at_ms, nth)) strict, without rowid`)
  const insert = db.prepare('insert or ignore into bare values (?, ?, 0, ?, null, 0, null, null)')
  const all = db.transaction((from: number) => {
    for (let n = from; n < from + PACK; n += 1) {
      const r = reading(n)
      insert.run(n % PROBES, r.atMs, r.rawC)
    }
  })
  const speed = await timed(async () => {
    for (let p = 0; p < PACKS; p += 1) all.immediate((round * PACKS + p) * PACK)
  })
  db.close()
  return speed
}

async function timed(work: () => Promise<unknown>): Promise<Speed> {
  const before = process.cpuUsage()
  const startMs = performance.now()
  await work()
  const tookMs = performance.now() - startMs
  const { user, system } = process.cpuUsage(before)
  return { perS: (PACK * PACKS * 1000) / tookMs, cpuUs: (user + system) / (PACK * PACKS) }
}

/** Readings come from another program, as from a bridge: what it spends on them is not the server's. */
async function throughHttp(port: number, round: number, lanes: number): Promise<Speed> {
  const sender = fork(fileURLToPath(import.meta.url), [String(port), String(round), String(lanes)])
  await once(sender, 'message')
  const speed = await timed(() => {
    const done = once(sender, 'message')
    sender.send('go')
    return done
  })
  sender.disconnect()
  return speed
}

/** The sender's own program: makes its packs, waits for the word, sends them. */
async function send(port: number, round: number, lanes: number): Promise<void> {
  const queue = [...packs(round)]
  const agent = new Agent({ keepAlive: true, maxSockets: lanes })
  process.send!('ready')
  await once(process, 'message')
  await Promise.all(
    Array.from({ length: lanes }, async () => {
      for (let body = queue.shift(); body !== undefined; body = queue.shift()) await post(agent, port, body)
    }),
  )
  agent.destroy()
  process.send!('done')
}

function post(agent: Agent, port: number, body: string): Promise<void> {
  return new Promise((resolve, reject) => {
    const headers = { 'content-type': 'application/senml+json', 'content-length': Buffer.byteLength(body) }
    const asked = request(
      { agent, port, host: '127.0.0.1', method: 'POST', path: '/api/readings', headers },
      (answer) => {
        let text = ''
        answer.setEncoding('utf8').on('data', (part: string) => (text += part))
        answer.on('end', () => {
          const { stored } = JSON.parse(text) as { stored: number }
          if (stored === PACK) resolve()
          else reject(new Error(`stored ${stored} of ${PACK}: ${text.slice(0, 200)}`))
        })
      },
    )
    asked.once('error', reject).end(body)
  })
}

const median = (values: readonly number[]): number =>
  values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)]!

/** One line of the answer, with its share of the bare speed and its processor time beside the bare one. */
function line(what: string, speeds: readonly Speed[], bareSpeeds: readonly Speed[]): string {
  const [perS, bareS] = [speeds, bareSpeeds].map((all) => median(all.map((s) => s.perS)))
  const [cpuUs, bareUs] = [speeds, bareSpeeds].map((all) => median(all.map((s) => s.cpuUs)))
  const rate = Math.round(perS!).toLocaleString('en').padStart(9)
  const share = `${((perS! / bareS!) * 100).toFixed(0)} %`.padStart(6)
  return `${what.padEnd(27)} ${rate} readings/s ${share}   ${cpuUs!.toFixed(2)} µs of processor a reading (× ${(cpuUs! / bareUs!).toFixed(2)})`
}

async function main(): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'holdfast-bench-'))
  const file = join(folder, 'holdfast.db')
  const decoded = decodeSettings([{ where: 'bench', values: { port: 0 } }])
  if (!decoded.ok) throw new Error(decoded.why)
  const results = { bare: [] as Speed[], one: [] as Speed[], four: [] as Speed[] }
  for (let round = 0; round < ROUNDS; round += 1) {
    results.bare.push(await bare(file, round))
    const store = await openSqliteStore(file)
    const server = await startServer({
      store,
      clock: new RealClock(),
      log: pino({ level: 'silent' }),
      settings: () => decoded.settings,
      ownKey: 'bench',
      web: folder,
      version: '0',
    })
    results.one.push(await throughHttp(server.port, round * 2, 1))
    results.four.push(await throughHttp(server.port, round * 2 + 1, 4))
    await server.close()
    await store.close()
  }
  rmSync(folder, { recursive: true, force: true })
  console.log(
    `Node ${process.version}, ${cpus().length} × ${cpus()[0]?.model ?? 'unknown'}, packs of ${PACK}, median of ${ROUNDS}`,
  )
  console.log(line('bare batched inserts', results.bare, results.bare))
  console.log(line('HTTP intake, one sender', results.one, results.bare))
  console.log(line('HTTP intake, four senders', results.four, results.bare))
}

const [port, round, lanes] = process.argv.slice(2).map(Number)
if (port === undefined || round === undefined || lanes === undefined) await main()
else await send(port, round, lanes)
