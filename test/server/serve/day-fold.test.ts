import { join } from 'node:path'
import { deserialize } from 'node:v8'
import * as fc from 'fast-check'
import { expect, onTestFinished, test } from 'vitest'
import type { BathEvent } from '#core/plan/event'
import type { Checkpoint } from '../../../server/serve/watch/checkpoint.ts'
import { coreWatch } from '../../../server/serve/watch/core-watch.ts'
import { DayFold } from '../../../server/serve/watch/day-fold.ts'
import { PotsOnStove } from '../../../server/serve/watch/pots-on-stove.ts'
import { openSqliteStore } from '../../../server/store/sqlite/open-sqlite-store.ts'
import type { Store } from '../../../server/store/store.ts'
import { KeptMemory } from '../../../server/tell/kept.ts'
import { seeded } from '../../kit/seeded.ts'
import { tempFolder } from '../../kit/temp-folder.ts'
import { hold, plan } from '../../kit/watch-day.ts'

const T0 = Date.UTC(2026, 0, 10, 8)
const S = 1000
const PLAN = plan(hold({ windowC: [60, 66], ceilingC: 70, holdMin: 10 }))

/** A running hold in one pot, noted and read for `seconds`, a reading every second or two. */
async function record(seed: number, seconds: number): Promise<Store> {
  const store = await openSqliteStore(join(tempFolder(), 'holdfast.db'))
  onTestFinished(() => store.close())
  const random = seeded(seed)
  await store.pots.add({ id: 'heron', title: 'Heron', vessel: null })
  await store.probes.see('heron', T0, true)
  await store.pots.assign('heron', 'heron', T0 - 3600 * S)
  const { id: planId } = await store.plans.add(PLAN, T0)
  const batch = await store.batches.add({
    title: 'Marl',
    planId,
    planVersion: 1,
    dryWeightG: 400,
    madeMs: T0,
  })
  const run = { batchId: batch.id, stageId: 'dye', potId: 'heron', probe: 'heron', startedMs: T0 }
  await store.batches.startStage(run)
  await note(store, T0, { kind: 'stage', stageId: 'dye' })
  let tempC = 58
  const readings = []
  for (let s = 0; s < seconds; s += random.pick([1, 1, 1, 2, 40])) {
    tempC += random.between(-0.05, 0.08)
    readings.push(stored(T0 + s * S + Math.floor(random.between(0, 999)), tempC))
    const event = random.pick<BathEvent>([{ kind: 'stir' }, { kind: 'dial', dial: 4 }, { kind: 'goods-out' }])
    if (random.next() < 0.01) await note(store, T0 + s * S, event)
  }
  await store.readings.add(readings)
  return store
}

const note = (store: Store, atMs: number, event: BathEvent) =>
  store.events.add({ atMs, notedMs: atMs, potId: 'heron', batchId: 1, stageId: 'dye', event, who: null })

const stored = (atMs: number, rawC: number) => {
  const reading = { kind: 'temp', probe: 'heron', atMs, rawC, tempC: rawC, verdict: 'good' } as const
  return { reading, serial: null }
}

/** A program that has just started; `reads` collects from when on it read the trace. */
async function started(store: Store, kept: KeptMemory<Checkpoint>, build = 'a') {
  const reads: number[] = []
  const { readings: all } = store
  const readings: Store['readings'] = {
    add: (some) => all.add(some),
    trace: (range, points) => all.trace(range, points),
    newest: () => all.newest(),
    tally: (range) => all.tally(range),
    between: (range) => {
      reads.push(range.fromMs)
      return all.between(range)
    },
  }
  const watched = { ...store, readings }
  const stove = new PotsOnStove(watched)
  await stove.refresh()
  const day = new DayFold({
    store: watched,
    stove,
    kept,
    newWatch: (from) => coreWatch({}, from),
    lagSOf: () => 12,
    beliefOf: () => null,
    program: () => build,
    onTrouble: (sentence) => expect.fail(sentence),
  })
  await day.open()
  return { day, reads }
}

const knows = async (day: DayFold, toMs: number) => {
  const { watch, standing } = await day.upTo(toMs)
  return { standing, state: deserialize(Buffer.from(watch.kept(), 'base64')) as unknown }
}

test('a start from a checkpoint knows what a start from the record knows, wherever the cut was', async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.integer({ min: 1, max: 1_000_000 }),
      fc.array(fc.integer({ min: 61, max: 1500 }), { minLength: 1, maxLength: 4 }),
      async (seed, cutsS) => {
        const store = await record(seed, 1500)
        const kept = new KeptMemory<Checkpoint>()
        for (const cutS of cutsS.toSorted((a, b) => a - b)) {
          const { day } = await started(store, kept)
          await day.keep(T0 + cutS * S)
        }
        const fromKept = await started(store, kept)
        const fromRecord = await started(store, new KeptMemory())
        const endMs = T0 + 1600 * S
        expect(await knows(fromKept.day, endMs)).toEqual(await knows(fromRecord.day, endMs))
        expect(Math.min(...fromKept.reads)).toBe(T0 + (Math.max(...cutsS) - 60) * S)
      },
    ),
    { numRuns: 8 },
  )
})

const CHANGES: readonly (readonly [string, (store: Store) => Promise<unknown>])[] = [
  ['a reading came late', (store) => store.readings.add([stored(T0 + 300 * S + 999, 61)])],
  ['an earlier event was noted', (store) => note(store, T0 + 200 * S, { kind: 'goods-out' })],
  ['an event was taken back', (store) => store.events.strike(1, T0, null)],
  ['another pot was put on', (store) => store.pots.add({ id: 'wren', title: 'Wren', vessel: null })],
]

test.each(CHANGES)(
  'a checkpoint is void when %s: the day is folded from its beginning',
  async (_, change) => {
    const store = await record(7, 900)
    const kept = new KeptMemory<Checkpoint>()
    await (await started(store, kept)).day.keep(T0 + 900 * S)
    await change(store)
    const fromKept = await started(store, kept)
    const fromRecord = await started(store, new KeptMemory())
    const endMs = T0 + 1000 * S
    expect(await knows(fromKept.day, endMs)).toEqual(await knows(fromRecord.day, endMs))
    expect(Math.min(...fromKept.reads)).toBeLessThan(T0)
  },
)

test('what another build of the program kept is not gone on from', async () => {
  const store = await record(7, 900)
  const kept = new KeptMemory<Checkpoint>()
  await (await started(store, kept, 'a')).day.keep(T0 + 900 * S)
  const { day, reads } = await started(store, kept, 'b')
  await day.upTo(T0 + 1000 * S)
  expect(Math.min(...reads)).toBeLessThan(T0)
})

test('nothing is kept while no batch runs', async () => {
  const store = await record(7, 900)
  await store.batches.end(1, T0 + 900 * S)
  const kept = new KeptMemory<Checkpoint>()
  const { day } = await started(store, kept)
  await day.keep(T0 + 900 * S)
  await day.upTo(T0 + 1000 * S)
  expect(await kept.load()).toBeNull()
})
