/**
 * From the command to `ready`: `serve` on a record with batches running for 12 h in three pots at a reading a second,
 * with and without what it kept of the watch, and `demo` in an empty folder. Median of five starts each.
 *
 *   npm run bench:start
 *
 * The program must be built before (`npm run build`). Prints figures; asserts nothing.
 */
import { spawn } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { loadavg, tmpdir } from 'node:os'
import { join } from 'node:path'
import { performance } from 'node:perf_hooks'
import { seededRandom } from '#core/measure/seeded-random'
import type { Plan } from '#core/plan/plan'
import { keepDay } from '../../server/demo/keep-day.ts'
import { openSqliteStore } from '../../server/store/sqlite/open-sqlite-store.ts'

const STARTS = 5
const HOURS = 12
const POTS = ['wren', 'heron', 'otter']
const HELD_S = 2.5 * 3600
const CHECKPOINT = 'watch-checkpoint.json'

const PLAN: Plan = {
  title: 'Root bath, overnight',
  fibre: 'wool',
  stages: [
    {
      id: 'dye',
      title: 'Root bath',
      kind: 'hold',
      windowC: [78, 84],
      ceilingC: 88,
      holdMin: 60,
      goods: true,
      additives: [],
    },
    { id: 'cool', title: 'Cool in the bath', kind: 'cool', coolToC: 25, additives: [] },
  ],
}

/** Up within an hour, held, then left to cool; a probe that shows sixteenths of a degree. */
function bathC(atS: number, random: () => number): number {
  const heldC = 81 + Math.sin(atS / 900)
  const tempC =
    atS < 3600
      ? 20 + (61 * atS) / 3600
      : atS < HELD_S
        ? heldC
        : 18 + 63 * Math.exp(-(atS - HELD_S) / (3.2 * 3600))
  return Math.round((tempC + (random() - 0.5) * 0.1) * 16) / 16
}

async function fill(data: string): Promise<void> {
  const store = await openSqliteStore(join(data, 'holdfast.db'))
  const startMs = Date.now() - HOURS * 3_600_000
  const { id: planId } = await store.plans.add(PLAN, startMs)
  for (const [i, pot] of POTS.entries()) {
    const random = seededRandom(i + 1)
    await store.pots.add({ id: pot, title: pot, vessel: null })
    await store.probes.see(pot, startMs, true)
    await store.pots.assign(pot, pot, startMs - 60_000)
    await keepDay(store, {
      title: `Overnight in ${pot}`,
      planId,
      plan: PLAN,
      potId: pot,
      probe: pot,
      dryKg: 0.4,
      readings: Array.from({ length: HOURS * 3600 }, (_, atS) => ({
        atMs: startMs + atS * 1000 + i * 250,
        rawC: bathC(atS, random),
      })),
      events: [
        { atMs: startMs, event: { kind: 'stage', stageId: 'dye' } },
        { atMs: startMs + 1000, event: { kind: 'dial', dial: 8 } },
        { atMs: startMs + HELD_S * 1000, event: { kind: 'dial', dial: 0 } },
        { atMs: startMs + HELD_S * 1000, event: { kind: 'stage', stageId: 'cool' } },
      ],
    })
  }
  await store.close()
}

/** Seconds until the program said `ready`; it has ended in an orderly way when this resolves. */
function readyS(command: string, data: string): Promise<number> {
  const startedMs = performance.now()
  const entry = 'server/commands/holdfast.js'
  const child = spawn(process.execPath, [entry, command, '--port', '0', '--log', 'error', '--data', data], {
    stdio: ['ignore', 'pipe', 'inherit'],
  })
  let tookS = Number.NaN
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    if (!/^ready /m.test(text)) return
    tookS = (performance.now() - startedMs) / 1000
    // An orderly stop in the first moment is not what is measured.
    setTimeout(() => child.kill('SIGTERM'), 1000)
  })
  return new Promise((resolve) => child.once('exit', () => resolve(tookS)))
}

const median = (values: readonly number[]): number =>
  values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)]!

async function measure(what: string, start: () => Promise<number>): Promise<void> {
  const took: number[] = []
  for (let i = 0; i < STARTS; i += 1) took.push(await start())
  const all = took.map((s) => s.toFixed(2)).join(' ')
  console.log(`${what.padEnd(44)} median ${median(took).toFixed(2)} s   (${all})`)
}

const load = () => loadavg()[0]!.toFixed(1)

const folder = mkdtempSync(join(tmpdir(), 'holdfast-bench-'))
const data = join(folder, 'data')
await fill(data)
console.log(`Node ${process.version}, load ${load()}, ${POTS.length} pots × ${HOURS} h at 1 Hz`)
await measure('serve, the day folded from the record', () => {
  rmSync(join(data, CHECKPOINT), { force: true })
  return readyS('serve', data)
})
await measure('serve, from what was kept of the watch', () => readyS('serve', data))
let demos = 0
await measure('demo in an empty folder', () => readyS('demo', join(folder, `demo-${(demos += 1)}`)))
rmSync(folder, { recursive: true })
console.log(`load ${load()} at the end`)
