import { join } from 'node:path'
import { expect, onTestFinished, test } from 'vitest'
import { batchFileSchema } from '#core/wire/batch-file'
import { decodeTrace } from '#core/wire/trace-file'
import { archiveIndex, archiveOfBatch } from '../../../server/report/archive.ts'
import type { PrintFor } from '../../../server/report/print-for.ts'
import { openSqliteStore } from '../../../server/store/sqlite/open-sqlite-store.ts'
import { good, plan } from '../../kit/store-contract.ts'
import { tempFolder } from '../../kit/temp-folder.ts'

const READER: PrintFor = {
  unit: 'C',
  weights: 'metric',
  zone: 'UTC',
  language: 'en',
  studio: 'Saltmarsh Lane',
}
const T0 = Date.UTC(2026, 0, 10, 8)
const JPEG = Buffer.from([0xff, 0xd8, 0xff, 0xe0, 9])

async function ranBatch() {
  const store = await openSqliteStore(join(tempFolder(), 'holdfast.db'))
  onTestFinished(() => store.close())
  const saved = await store.plans.add(plan, T0)
  const batch = { title: 'Two <skeins>', planId: saved.id, planVersion: 1, dryWeightG: 400, madeMs: T0 }
  const { id } = await store.batches.add(batch)
  await store.batches.startStage({
    batchId: id,
    stageId: 'mordant',
    potId: 'heron',
    probe: 'heron',
    startedMs: T0,
  })
  const event = { kind: 'stage', stageId: 'mordant' } as const
  await store.events.add({
    atMs: T0,
    notedMs: T0,
    potId: 'heron',
    batchId: id,
    stageId: 'mordant',
    event,
    who: null,
  })
  await store.readings.add([0, 1, 2].map((s) => ({ reading: good(s, 80 + s), serial: null })))
  await store.batches.end(id, T0 + 2000)
  const fileId = await store.photos.add({ type: 'image/jpeg', bytes: JPEG, addedMs: T0 })
  const line = { batchId: id, atMs: T0, notedMs: T0, who: null, replaces: null }
  await store.entries.add({ ...line, kind: 'photo', body: { fileId, of: 'dry' } })
  return { store, id, fileId }
}

test('a batch leaves as files that open without the tool: page, JSON by its schema, plan, trace, photos', async () => {
  const { store, id, fileId } = await ranBatch()
  const files = new Map((await archiveOfBatch(store, id, READER, T0))!.map((f) => [f.name, f.content]))
  expect([...files.keys()]).toEqual([
    'sheet.html',
    'batch.json',
    'plan.plan.json',
    'trace.csv',
    `photos/${fileId}.jpg`,
  ])
  expect(String(files.get('sheet.html'))).toContain('Two &lt;skeins&gt;')
  expect(batchFileSchema.safeParse(JSON.parse(String(files.get('batch.json')))).success).toBe(true)
  expect(files.get(`photos/${fileId}.jpg`)).toEqual(JPEG)
  const trace = decodeTrace(String(files.get('trace.csv')), ['mordant', 'rinse'])
  expect(trace.ok && trace.trace.moments.map((m) => m.tempC)).toEqual([80, 81, 82])
  expect(await archiveOfBatch(store, 99, READER, T0)).toBeNull()
})

test('the first page of an archive links every batch and escapes its title', async () => {
  const { store, id } = await ranBatch()
  const index = archiveIndex(await store.batches.list({ limit: 10 }), READER)
  expect(index).toContain(`href="batch-${id}/sheet.html"`)
  expect(index).toContain('Two &lt;skeins&gt;')
  expect(index).not.toMatch(/<script|<skeins/)
})
