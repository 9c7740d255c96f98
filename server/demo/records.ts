import type { RecordBodies, RecordKind } from '#core/batch/record-line'
import { stageNeeds } from '#core/batch/weighing'
import type { Store } from '../store/store.ts'
import type { EarlierBatch } from './earlier.ts'
import { DYER } from './studio.ts'

/** The shelf of the invented studio. Prices in whatever it reckons in. */
const SHELF = [
  { material: 'madder root, ground', lot: 'R-11', harvestYear: 2024, pricePerKg: 38, receivedG: 1500 },
  { material: 'madder root, ground', lot: 'R-14', harvestYear: 2025, pricePerKg: 41, receivedG: 1000 },
  { material: 'potassium alum', lot: 'A-3', pricePerKg: 9, receivedG: 2500 },
  { material: 'cream of tartar', lot: 'T-2', pricePerKg: 16, receivedG: 400 },
  { material: 'weld, dried', lot: 'W-25', harvestYear: 2025, pricePerKg: 34, receivedG: 360 },
  { material: 'cutch extract', lot: 'C-7', pricePerKg: 52, receivedG: 600 },
] as const

export interface DemoLot {
  readonly id: number
  readonly material: string
  readonly lot: string
}

/** Lots that came in before the first batch. */
export async function fillShelf(store: Store, atMs: number): Promise<readonly DemoLot[]> {
  const lots: DemoLot[] = []
  for (const { receivedG, ...lot } of SHELF) {
    const saved = await store.stock.addLot(lot)
    await store.stock.addEvent({
      kind: 'received',
      lotId: saved.id,
      grams: receivedG,
      who: DYER,
      atMs,
      notedMs: atMs,
    })
    lots.push(saved)
  }
  return lots
}

/** How each earlier batch came out, judged dry; all invented. By title. */
const RESULTS: Readonly<Record<string, RecordBodies['result']>> = {
  'Marl, ten skeins, brick rose': {
    words: 'Warm brick rose, clear; two skeins a touch lighter at the ties.',
    lab: { lightness: 47.2, a: 33.1, b: 22.4 },
    labFrom: 'meter',
    evenness: 4,
    handle: 5,
  },
  'Marl, first test skein': {
    words: 'A little paler than hoped.',
    lab: { lightness: 51.6, a: 28.3, b: 19.7 },
    labFrom: 'photo',
    evenness: 5,
    handle: 5,
  },
  'Fen, apron cloth, cutch brown': {
    words: 'Deep warm brown, even.',
    lab: { lightness: 38.9, a: 13.8, b: 20.6 },
    labFrom: 'photo',
    evenness: 4,
    handle: 4,
  },
  'Sedge, two scarves, weld gold': {
    words: 'Bright gold, full lustre.',
    lab: { lightness: 72.8, a: 1.9, b: 58.2 },
    labFrom: 'photo',
    evenness: 5,
    handle: 5,
  },
  'Sedge, ribbon, weld gold': {
    words: 'Gold, a shade greener than the scarves.',
    lab: { lightness: 74.5, a: -3.2, b: 54.9 },
    labFrom: 'photo',
    evenness: 4,
    handle: 5,
  },
}

const MIN_MS = 60_000

/** What the dyer wrote down of an earlier batch: water, weighings, pH, and how it came out. */
export async function keepRecord(
  store: Store,
  batchId: number,
  batch: EarlierBatch,
  when: { readonly startMs: number; readonly endMs: number; readonly lots: readonly DemoLot[] },
): Promise<void> {
  const { startMs, endMs, lots } = when
  const note = <K extends RecordKind>(kind: K, body: RecordBodies[K], atMs: number, replaces?: number) =>
    store.entries.add({
      batchId,
      atMs,
      notedMs: atMs,
      who: DYER,
      kind,
      body,
      replaces: replaces ?? null,
    })
  await note(
    'water',
    { source: batch.endedAgoH > 120 ? 'rain butt' : 'tap', hardnessMgL: batch.endedAgoH > 120 ? 30 : 140 },
    startMs,
  )
  await weigh(batch, lots, (body, i) => note('weighing', body, startMs + i * MIN_MS))
  const strip = await note('ph', { ph: 6, when: 'start', by: 'strip' }, startMs + 20 * MIN_MS)
  if (batch.jugAtMin !== undefined)
    await note('ph', { ph: 6.5, when: 'start', by: 'strip' }, strip.atMs, strip.id)
  const result = RESULTS[batch.title]
  if (result === undefined) return
  await note('result', result, endMs + 60 * MIN_MS)
  await note('fastness', { test: 'wash', grade: '4-5', where: 'home' }, endMs + 60 * MIN_MS)
}

/** Goods that were mordanted days before: the record leads to that batch, and tells how old the mordant is. */
export async function keepPreparation(
  store: Store,
  batchId: number,
  preparedIn: string,
  atMs: number,
): Promise<void> {
  const earlier = (await store.batches.list({ limit: 100 })).find(({ title }) => title === preparedIn)
  if (earlier === undefined) throw new Error(`expected an earlier batch "${preparedIn}", found none`)
  const run = (await store.batches.get(earlier.id))?.stages.at(-1)
  const body = {
    what: 'alum mordant',
    batchId: earlier.id,
    lot: preparedIn,
    doneMs: run?.endedMs ?? earlier.madeMs,
  }
  await store.entries.add({
    batchId,
    atMs,
    notedMs: atMs,
    who: DYER,
    kind: 'preparation',
    body,
    replaces: null,
  })
}

/** Weighed as a kitchen scale shows it; the older batches used the older lots. */
async function weigh(
  { plan, dryKg, endedAgoH }: EarlierBatch,
  lots: readonly DemoLot[],
  put: (body: RecordBodies['weighing'], i: number) => Promise<unknown>,
): Promise<void> {
  const needed = plan.stages
    .map((stage) => stageNeeds(stage, dryKg * 1000, null))
    .flatMap(({ stageId, additives }) => additives.map((additive) => ({ stageId, ...additive })))
  for (const [i, { stageId, name, needG }] of needed.entries()) {
    if (needG === null) continue
    const own = lots.filter((lot) => lot.material === name)
    const lot = endedAgoH > 50 ? own[0] : own.at(-1)
    const weighedG = Math.round(needG * (i % 2 === 0 ? 1.006 : 0.99) * 10) / 10
    const body = { stageId, additive: name, plannedG: needG, weighedG }
    await put(lot === undefined ? body : { ...body, lotId: lot.id, lot: lot.lot }, i)
  }
}
