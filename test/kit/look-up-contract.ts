import { expect, onTestFinished, test } from 'vitest'
import { stockLeft } from '#core/batch/stock'
import type { RecordBodies, RecordKind } from '#core/batch/record-line'
import type { Plan } from '#core/plan/plan'
import type { FindQuery } from '../../server/store/look-up.ts'
import type { Store } from '../../server/store/store.ts'

const T0 = Date.UTC(2026, 2, 12, 8)

const planOf = (title: string, fibre: string, additive: string, percentWof: number): Plan => ({
  title,
  fibre,
  stages: [
    {
      id: 'dye',
      title: 'Dye bath',
      kind: 'hold',
      windowC: [66, 70],
      holdMin: 60,
      goods: true,
      additives: [{ name: additive, percentWof }],
    },
  ],
})

async function addBatch(store: Store, title: string, plan: Plan, madeMs = T0): Promise<number> {
  const saved = await store.plans.add(plan, madeMs)
  const batch = await store.batches.add({
    title,
    planId: saved.id,
    planVersion: saved.version,
    dryWeightG: 500,
    madeMs,
  })
  return batch.id
}

const addLine = async <K extends RecordKind>(
  store: Store,
  batchId: number,
  kind: K,
  body: RecordBodies[K],
  replaces: number | null = null,
): Promise<number> => {
  const line = { batchId, atMs: T0, notedMs: T0, who: 'Ash', kind, body, replaces }
  return (await store.entries.add(line)).id
}

const titles = async (store: Store, query: Partial<FindQuery>): Promise<readonly string[]> =>
  (await store.lookUp.find({ facets: [], limit: 50, ...query })).map((batch) => batch.title)

const lab = (lightness: number) => ({ lab: { lightness, a: 30, b: 20 } })

/** What every engine must do when batches are looked up. `open` gives an empty store. */
export function lookUpContract(open: () => Promise<Store>): void {
  const fresh = async () => {
    const store = await open()
    onTestFinished(() => store.close())
    return store
  }

  test('words are found in title, plan, additives and record; from their beginning, without case or accents', async () => {
    const store = await fresh()
    const red = await addBatch(store, 'Brick rose', planOf('Garance', 'wool', 'madder root', 40))
    await addBatch(store, 'Café brown', planOf('Walnut', 'wool', 'walnut hull', 25))
    await addLine(store, red, 'note', { text: 'A jug of cold water went in' })
    expect(await titles(store, { text: 'ROSE' })).toEqual(['Brick rose'])
    expect(await titles(store, { text: 'mad' })).toEqual(['Brick rose'])
    expect(await titles(store, { text: 'jug cold' })).toEqual(['Brick rose'])
    expect(await titles(store, { text: 'cafe' })).toEqual(['Café brown'])
    expect(await titles(store, { text: 'wool' })).toEqual(['Café brown', 'Brick rose'])
    expect(await titles(store, { text: 'rose walnut' })).toEqual([])
  })

  test.each(['"', '*', 'a OR b', 'NEAR(a b)', 'title:rose', '-rose', "'; drop table batch", '()', '^'])(
    'nothing that is typed is syntax: %j',
    async (text) => {
      const store = await fresh()
      await addBatch(store, 'Brick rose', planOf('Garance', 'wool', 'madder root', 40))
      expect(await titles(store, { text })).toEqual(text === '-rose' ? ['Brick rose'] : [])
    },
  )

  test('a corrected word is found by what it is now, a new title by itself', async () => {
    const store = await fresh()
    const id = await addBatch(store, 'Brick rose', planOf('Garance', 'wool', 'madder root', 40))
    const line = await addLine(store, id, 'result', { words: 'dull' })
    await addLine(store, id, 'result', { words: 'brilliant' }, line)
    expect(await titles(store, { text: 'dull' })).toEqual([])
    expect(await titles(store, { text: 'brilliant' })).toEqual(['Brick rose'])
    await store.batches.change(id, { title: 'Salmon', dryWeightG: 500 })
    expect(await titles(store, { text: 'salmon' })).toEqual(['Salmon'])
    expect(await titles(store, { text: 'brick' })).toEqual([])
  })

  test('which batches ran on this probe, dye lot, burner or pot, alone and together', async () => {
    const store = await fresh()
    await store.pots.add({ id: 'heron', title: 'Heron', vessel: null })
    const one = await addBatch(store, 'One', planOf('Red', 'wool', 'madder', 40))
    const two = await addBatch(store, 'Two', planOf('Red', 'Linen', 'madder', 60))
    for (const id of [one, two])
      await store.batches.startStage({
        batchId: id,
        stageId: 'dye',
        potId: 'heron',
        probe: 'p1',
        startedMs: T0,
      })
    await addLine(store, one, 'weighing', { stageId: 'dye', additive: 'madder', weighedG: 200, lot: 'R-11' })
    await addLine(store, two, 'equipment', { burner: 'cast plate' })
    expect(await titles(store, { facets: [{ kind: 'probe', value: 'p1' }] })).toEqual(['Two', 'One'])
    expect(await titles(store, { facets: [{ kind: 'lot', value: 'R-11' }] })).toEqual(['One'])
    expect(await titles(store, { facets: [{ kind: 'burner', value: 'cast plate' }] })).toEqual(['Two'])
    expect(await titles(store, { facets: [{ kind: 'fibre', value: 'linen' }] })).toEqual(['Two'])
    const both = [
      { kind: 'pot', value: 'heron' },
      { kind: 'lot', value: 'R-11' },
    ] as const
    expect(await titles(store, { facets: both })).toEqual(['One'])
    expect(await titles(store, { facets: both, text: 'two' })).toEqual([])
  })

  test('a lot that was corrected belongs to the batch no more, and its count goes down', async () => {
    const store = await fresh()
    const id = await addBatch(store, 'One', planOf('Red', 'wool', 'madder', 40))
    const body = { stageId: 'dye', additive: 'madder', weighedG: 200 }
    const wrong = await addLine(store, id, 'weighing', { ...body, lot: 'R-11' })
    await addLine(store, id, 'weighing', { ...body, lot: 'R-14' }, wrong)
    expect(await titles(store, { facets: [{ kind: 'lot', value: 'R-11' }] })).toEqual([])
    const lots = (await store.lookUp.facets(10)).filter((facet) => facet.kind === 'lot')
    expect(lots).toEqual([{ kind: 'lot', value: 'R-14', count: 1 }])
  })

  test('facets are counted, the most frequent first', async () => {
    const store = await fresh()
    for (const fibre of ['wool', 'silk', 'wool'])
      await addBatch(store, fibre, planOf('Red', fibre, 'madder', 40))
    const fibres = (await store.lookUp.facets(10)).filter((facet) => facet.kind === 'fibre')
    expect(fibres.map((f) => [f.value, f.count])).toEqual([
      ['wool', 2],
      ['silk', 1],
    ])
  })

  test('pages follow one another, newest first, and dates bound them', async () => {
    const store = await fresh()
    for (let day = 0; day < 5; day += 1)
      await addBatch(store, `day ${day}`, planOf('Red', 'wool', 'madder', 40), T0 + day * 86_400_000)
    const first = await store.lookUp.find({ facets: [{ kind: 'fibre', value: 'wool' }], limit: 2 })
    expect(first.map((b) => b.title)).toEqual(['day 4', 'day 3'])
    const next = { facets: [{ kind: 'fibre', value: 'wool' }] as const, limit: 2, beforeId: first[1]!.id }
    expect(await titles(store, next)).toEqual(['day 2', 'day 1'])
    const range = { fromMs: T0 + 86_400_000, toMs: T0 + 3 * 86_400_000 }
    expect(await titles(store, range)).toEqual(['day 2', 'day 1'])
  })

  test('a shade card has the colour of every standing result, with the strength of the dye asked for', async () => {
    const store = await fresh()
    const pale = await addBatch(store, 'Pale', planOf('Red', 'wool', 'Madder', 20))
    const deep = await addBatch(store, 'Deep', planOf('Red', 'wool', 'madder', 60))
    const other = await addBatch(store, 'Yellow', planOf('Weld', 'wool', 'weld', 60))
    const wrong = await addLine(store, pale, 'result', lab(10))
    await addLine(store, pale, 'result', lab(70), wrong)
    await addLine(store, deep, 'result', lab(40))
    await addLine(store, deep, 'result', { words: 'no colour measured' })
    await addLine(store, other, 'result', lab(80))
    const shades = await store.lookUp.shades({ additive: 'madder', limit: 10 })
    expect(shades.map((s) => [s.title, s.lab.lightness, s.percentWof])).toEqual([
      ['Deep', 40, 60],
      ['Pale', 70, 20],
    ])
    expect((await store.lookUp.shades({ limit: 10 })).map((s) => s.title)).toEqual(['Yellow', 'Deep', 'Pale'])
  })

  test('stock is taken down by standing weighings: a correction changes it, taking back gives it back', async () => {
    const store = await fresh()
    const lot = await store.stock.addLot({
      material: 'madder',
      lot: 'R-14',
      harvestYear: 2025,
      pricePerKg: 45,
    })
    const received = { kind: 'received', lotId: lot.id, atMs: T0 - 1, grams: 500 } as const
    await store.stock.addEvent({ ...received, who: 'Ash', notedMs: T0 })
    const id = await addBatch(store, 'One', planOf('Red', 'wool', 'madder', 40))
    const left = async () => stockLeft(await store.stock.events()).get(lot.id)
    const body = { stageId: 'dye', additive: 'madder', lotId: lot.id, lot: 'R-14' }
    const wrong = await addLine(store, id, 'weighing', { ...body, weighedG: 20 })
    expect(await left()).toBe(480)
    const right = await addLine(store, id, 'weighing', { ...body, weighedG: 200 }, wrong)
    expect(await left()).toBe(300)
    await addLine(store, id, 'withdrawn', {}, right)
    expect(await left()).toBe(500)
    expect(await store.stock.events(lot.id + 1)).toEqual([])
    expect(await store.stock.lots()).toEqual([lot])
  })
}
