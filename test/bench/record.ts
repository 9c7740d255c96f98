// Looking up among many batches: `npm run bench:record` (50 million readings, five to ten minutes and 3 GB of
// temporary disk) and `npm run bench:record -- 0.1` (a tenth). The size is what a studio of four pots writes in about
// four years of dye days. `npm run bench:record -- 1 FOLDER` keeps the database in a folder, and takes the one that
// lies there. What the server answers is timed over HTTP, what the page draws in a Chromium. It prints and asserts nothing.
import { existsSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pino } from 'pino'
import type { Clock } from '#core/measure/clock'
import { decodeSettings } from '#core/wire/settings'
import { startServer } from '../../server/main.ts'
import { openSqliteStore } from '../../server/store/sqlite/open-sqlite-store.ts'
import { LONG_READINGS, POTS, T0, fillDatabase } from './record/fill-database.ts'
import { type PageAsk, pageTimes } from './record/page-times.ts'
import { timesOf, timesText } from './record/times.ts'

const share = Number(process.argv[2] ?? 1)
const keptIn = process.argv[3]
const BATCHES = Math.round(5000 * share)

const folder = keptIn ?? mkdtempSync(join(tmpdir(), 'holdfast-bench-'))
const file = join(folder, `record-${BATCHES}.db`)

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
    web: join(import.meta.dirname, '../web'),
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
  console.log('\nuntil it stands on the page, from navigation to last paint')
  for (const [name, ask] of Object.entries(pageAsks(last, six)))
    for (const [how, { painted, busy }] of Object.entries(await pageTimes(server.url, ask)))
      console.log(
        `${`${name}, ${how}`.padEnd(38)} ${timesText(painted)}   the page's own work ${busy.medianMs.toFixed(0)} ms`,
      )
  await server.close()
  await store.close()
}

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
  return `${name.padEnd(38)} ${timesText(timesOf(times))}   ${bytes} bytes`
}

const CLOCK: Clock = {
  nowMs: () => Date.now(),
  after: (delayMs, fn) => {
    const timer = setTimeout(fn, delayMs)
    return () => clearTimeout(timer)
  },
}

const pageAsks = (last: number, six: string): Readonly<Record<string, PageAsk>> => ({
  'batch list': { hash: '#/batches', shows: '.row-list li', times: 50 },
  'a search, typed': { hash: '#/batches', typed: 'rose', shows: '.row-list li', times: 25 },
  'which batches: dye lot': { hash: '#/find/lot%3AR-3', shows: '.row-list li', times: 40 },
  'batch page with 12 h': { hash: `#/batches/${last}`, shows: '.big-trace canvas', times: 2 },
  'comparison of six': { hash: `#/compare/${six}`, shows: 'svg .compare-line', times: 12 },
})

mkdirSync(folder, { recursive: true })
if (!existsSync(file)) {
  await (await openSqliteStore(file)).close()
  const madeMs = performance.now()
  fillDatabase(file, BATCHES)
  console.log(`generated ${BATCHES} batches in ${Math.round((performance.now() - madeMs) / 1000)} s`)
}
await measure()
if (keptIn === undefined) rmSync(folder, { recursive: true, force: true })
