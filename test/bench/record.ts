// Looking up among many batches: `npm run bench:record` (50 million readings, about three minutes and 3 GB of
// temporary disk) and `npm run bench:record -- 0.1` (a tenth). The size is what a studio of four pots writes in about
// four years of dye days. It prints and asserts nothing.
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import { pino } from 'pino'
import type { Clock } from '#core/measure/clock'
import { decodeSettings } from '#core/wire/settings'
import { startServer } from '../../server/main.ts'
import { openSqliteStore } from '../../server/store/sqlite/open-sqlite-store.ts'

const share = Number(process.argv[2] ?? 1)
const BATCHES = Math.round(5000 * share)
const READINGS = 10_000
/** The newest few have whole nights: 12 h at a reading a second. */
const LONG = 8
const LONG_READINGS = 43_200
const T0 = Date.UTC(2021, 0, 4, 8)
const DYES = ['madder', 'weld', 'cochineal', 'walnut hull', 'onion skins', 'logwood', 'cutch', 'indigo']
const FIBRES = ['wool', 'silk', 'linen', 'cotton']
const WORDS = [
  'rose',
  'brick',
  'lemon',
  'moss',
  'plum',
  'sand',
  'rust',
  'smoke',
  'clay',
  'fern',
  'storm',
  'straw',
]
const POTS = ['wren', 'heron', 'otter', 'finch']

const folder = mkdtempSync(join(tmpdir(), 'holdfast-bench-'))
const file = join(folder, 'holdfast.db')

function generate(): void {
  const db = new Database(file)
  db.pragma('synchronous = OFF')
  for (const [i, pot] of POTS.entries()) {
    db.prepare('insert into pot (id, title) values (?, ?)').run(pot, pot)
    db.prepare('insert into probe (id, name, first_seen_ms, accepted) values (?, ?, ?, 1)').run(
      i + 1,
      pot,
      T0,
    )
  }
  const addPlan = db.prepare('insert into plan default values')
  const addVersion = db.prepare('insert into plan_version values (?, 1, ?, ?)')
  DYES.forEach((dye, d) => {
    addPlan.run()
    addVersion.run(d + 1, T0, JSON.stringify(planOf(dye, FIBRES[d % FIBRES.length]!)))
  })
  for (let from = 0; from < BATCHES; from += 100)
    db.transaction(() => {
      for (let n = from; n < Math.min(BATCHES, from + 100); n += 1) addBatch(db, n)
    })()
  db.close()
}

const planOf = (dye: string, fibre: string) => ({
  title: `${dye} on ${fibre}`,
  fibre,
  stages: [
    {
      id: 'dye',
      title: 'Dye bath',
      kind: 'hold',
      windowC: [70, 80],
      ceilingC: 85,
      holdMin: 60,
      goods: true,
      additives: [{ name: dye, percentWof: 40 }],
    },
    { id: 'cool', title: 'Cool', kind: 'cool', coolToC: 38, additives: [] },
  ],
})

function addBatch(db: Database.Database, n: number): void {
  const count = n >= BATCHES - LONG ? LONG_READINGS : READINGS
  const pot = n % POTS.length
  const startMs = T0 + Math.floor(n / POTS.length) * 86_400_000
  const dyeEndMs = startMs + Math.min(count, 9000) * 1000
  const dye = n % DYES.length
  const title = `${WORDS[n % 12]} ${WORDS[(n * 7) % 12]} number ${n}`
  db.prepare(
    `insert into batch (title, plan_id, plan_version, dry_weight_g, made_ms, state, pot_id) values (?, ?, 1, 500, ?, 'ended', ?)`,
  ).run(title, dye + 1, startMs, POTS[pot])
  const run = db.prepare(
    'insert into stage_run (batch_id, stage_id, pot_id, probe, started_ms, ended_ms) values (?, ?, ?, ?, ?, ?)',
  )
  run.run(n + 1, 'dye', POTS[pot], POTS[pot], startMs, dyeEndMs)
  run.run(n + 1, 'cool', POTS[pot], POTS[pot], dyeEndMs, startMs + count * 1000)
  const entry = db.prepare(
    `insert into entry (batch_id, at_ms, noted_ms, who, kind, body) values (?, ?, ?, 'Ash', ?, ?)`,
  )
  const lot = `R-${Math.floor(n / 40)}`
  const weighing = { stageId: 'dye', additive: DYES[dye], weighedG: 200, lot }
  const result = {
    words: `${WORDS[(n * 5) % 12]}, even`,
    lab: { lightness: 30 + (n % 50), a: n % 60, b: n % 40 },
  }
  entry.run(n + 1, startMs, startMs, 'weighing', JSON.stringify(weighing))
  entry.run(n + 1, startMs, startMs, 'result', JSON.stringify(result))
  addReadings(db, pot + 1, startMs, count)
}

function addReadings(db: Database.Database, probeId: number, startMs: number, count: number): void {
  const tempC = 'round(case when s < 3000 then 20 + s * 0.0185 else 75 + (s % 97) / 50.0 end, 2)'
  db.prepare(
    `with recursive t (s) as (values (0) union all select s + 1 from t where s + 1 < ?)
     insert into reading (probe_id, at_ms, nth, raw_c, verdict) select ?, ? + s * 1000, 0, ${tempC}, 0 from t`,
  ).run(count, probeId, startMs)
  db.prepare(
    `with recursive m (s) as (values (0) union all select s + 60 from m where s + 60 < ?)
     insert into minute select ?, (? + s * 1000) / 60000, ${tempC}, ? + s * 1000, ${tempC} + 0.5, ? + s * 1000 + 30000 from m`,
  ).run(count, probeId, startMs, startMs, startMs)
}

async function measure(): Promise<void> {
  const store = await openSqliteStore(file)
  const decoded = decodeSettings([{ where: 'bench', values: { port: 0, zone: 'UTC' } }])
  if (!decoded.ok) throw new Error(decoded.why)
  const server = await startServer({
    store: { ...store, check: async () => [] },
    clock: CLOCK,
    log: pino({ level: 'silent' }),
    settings: () => decoded.settings,
    ownKey: 'the key of the bridge beside',
    web: folder,
    version: '0.0.0',
  })
  const last = BATCHES
  const six = Array.from({ length: 6 }, (_, i) => last - i).join(',')
  const from = new Date(T0 + Math.floor((BATCHES - 1) / POTS.length) * 86_400_000).toISOString()
  const to = new Date(Date.parse(from) + LONG_READINGS * 1000).toISOString()
  const asks = {
    'batch list': '/api/batches?limit=200',
    'search, a common word': '/api/find?text=rose',
    'search, two words': '/api/find?text=plum%20number',
    'search, one batch': `/api/find?text=${Math.round(BATCHES / 2)}`,
    'which batches: dye lot': '/api/find?facet=lot:R-3',
    'which batches: probe and fibre': '/api/find?facet=probe:heron&facet=fibre:silk',
    facets: '/api/facets',
    'shade card of a dye': '/api/shades?additive=madder',
    'batch page': `/api/batches/${last}`,
    'its trace of 12 h': `/api/trace?probe=${POTS[(last - 1) % POTS.length]}&from=${from}&to=${to}&points=1200`,
    'comparison of six': `/api/compare?ids=${six}`,
    'batch sheet with every reading': `/api/batches/${last}/sheet`,
  }
  for (const [name, path] of Object.entries(asks)) console.log(await timed(name, server.url + path))
  await server.close()
  await store.close()
}

const ms = (value: number): string => value.toFixed(1).padStart(7)

/** Milliseconds until the answer is whole: the first time, then the median and the longest of twenty. */
async function timed(name: string, url: string): Promise<string> {
  const times: number[] = []
  let bytes = 0
  for (let n = 0; n < 21; n += 1) {
    const startMs = performance.now()
    const answer = await fetch(url)
    bytes = (await answer.arrayBuffer()).byteLength
    times.push(performance.now() - startMs)
    if (answer.status !== 200) return `${name}: ${answer.status}`
  }
  const [first, ...rest] = times
  rest.sort((a, b) => a - b)
  return `${name.padEnd(32)} first ${ms(first!)} ms   median ${ms(rest[10]!)} ms   longest ${ms(rest.at(-1)!)} ms   ${bytes} bytes`
}

const CLOCK: Clock = {
  nowMs: () => Date.now(),
  after: (delayMs, fn) => {
    const timer = setTimeout(fn, delayMs)
    return () => clearTimeout(timer)
  },
}

await (await openSqliteStore(file)).close()
const madeMs = performance.now()
generate()
console.log(`generated ${BATCHES} batches in ${Math.round((performance.now() - madeMs) / 1000)} s`)
await measure()
rmSync(folder, { recursive: true, force: true })
