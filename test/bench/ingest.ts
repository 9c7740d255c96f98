/**
 * Readings stored a second through the whole intake (HTTP, SenML, verdict, correction, commit), side by side with
 * bare batched inserts into the same database file with the same durability, in one run.
 *
 *   npm run bench:ingest
 *
 * Packs of 500: what a bridge sends while it works up an outage. Prints figures and the ratio; asserts nothing.
 */
import { mkdtempSync, rmSync } from 'node:fs'
import { cpus, tmpdir } from 'node:os'
import { join } from 'node:path'
import { Agent, request } from 'node:http'
import { performance } from 'node:perf_hooks'
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

/** Bare: the same rows into a table of the same shape in the same file, one transaction a pack. */
function bare(file: string, round: number): number {
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
  const startMs = performance.now()
  for (let p = 0; p < PACKS; p += 1) all.immediate((round * PACKS + p) * PACK)
  const tookMs = performance.now() - startMs
  db.close()
  return (PACK * PACKS * 1000) / tookMs
}

async function throughHttp(port: number, bodies: readonly string[], lanes: number): Promise<number> {
  const agent = new Agent({ keepAlive: true, maxSockets: lanes })
  const queue = [...bodies]
  const startMs = performance.now()
  await Promise.all(
    Array.from({ length: lanes }, async () => {
      for (let body = queue.shift(); body !== undefined; body = queue.shift()) await post(agent, port, body)
    }),
  )
  const tookMs = performance.now() - startMs
  agent.destroy()
  return (PACK * PACKS * 1000) / tookMs
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
const thousands = (n: number): string => Math.round(n).toLocaleString('en').padStart(9)

async function main(): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'holdfast-bench-'))
  const file = join(folder, 'holdfast.db')
  const decoded = decodeSettings([{ where: 'bench', values: { port: 0 } }])
  if (!decoded.ok) throw new Error(decoded.why)
  const results = { bare: [] as number[], one: [] as number[], four: [] as number[] }
  for (let round = 0; round < ROUNDS; round += 1) {
    results.bare.push(bare(file, round))
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
    results.one.push(await throughHttp(server.port, packs(round * 2), 1))
    results.four.push(await throughHttp(server.port, packs(round * 2 + 1), 4))
    await server.close()
    await store.close()
  }
  rmSync(folder, { recursive: true, force: true })
  const [b, one, four] = [median(results.bare), median(results.one), median(results.four)]
  console.log(
    `Node ${process.version}, ${cpus().length} × ${cpus()[0]?.model ?? 'unknown'}, packs of ${PACK}, median of ${ROUNDS}`,
  )
  console.log(`bare batched inserts        ${thousands(b)} readings/s`)
  console.log(`HTTP intake, one sender     ${thousands(one)} readings/s  ${((one / b) * 100).toFixed(0)} %`)
  console.log(`HTTP intake, four senders   ${thousands(four)} readings/s  ${((four / b) * 100).toFixed(0)} %`)
}

await main()
