import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import { beforeAll, expect, onTestFinished, test } from 'vitest'
import { backup } from '../../../server/commands/backup.ts'
import { exportCommand } from '../../../server/commands/export.ts'
import { restore } from '../../../server/commands/restore.ts'
import { openSqliteStore } from '../../../server/store/sqlite/open-sqlite-store.ts'
import { buildProgram, Program } from '../../kit/program.ts'
import { good, plan } from '../../kit/store-contract.ts'
import { tempFolder } from '../../kit/temp-folder.ts'

beforeAll(buildProgram)

async function furnished(): Promise<string> {
  const data = tempFolder()
  const store = await openSqliteStore(join(data, 'holdfast.db'))
  await store.readings.add([0, 1, 2].map((s) => ({ reading: good(s, 80 + s), serial: null })))
  const { id: planId } = await store.plans.add(plan, 0)
  const batch = { title: '=1+1', planId, planVersion: 1, dryWeightG: 400, madeMs: 0 }
  const { id: batchId } = await store.batches.add(batch)
  const startedMs = good(0, 0).atMs
  await store.batches.startStage({ batchId, stageId: 'mordant', potId: 'heron', probe: 'heron', startedMs })
  await store.events.add({
    atMs: startedMs,
    notedMs: startedMs,
    potId: 'heron',
    batchId,
    stageId: 'mordant',
    event: { kind: 'stage', stageId: 'mordant' },
    who: null,
  })
  await store.batches.end(batchId, startedMs + 2500)
  await store.close()
  return data
}

test('a copy made while readings come in is whole, and comes back as it was', async () => {
  const data = await furnished()
  const server = new Program(['serve', '--data', data, '--port', '0', '--no-bridge', '--log', 'error'])
  onTestFinished(() => server.stop('SIGKILL'))
  await server.start(/ready (\S+)\n/)
  const url = /ready (\S+)/.exec(server.output)![1]!
  const post = (n: number) =>
    fetch(`${url}/api/readings`, {
      method: 'POST',
      headers: { 'content-type': 'application/senml+json' },
      body: JSON.stringify([{ n: 'pi/wren', u: 'Cel', v: 20, boot: 'b', seq: n, t: 1_768_000_000 + n }]),
    })
  const copying = { done: false }
  const sending = (async () => {
    for (let n = 0; !copying.done; n += 1) await post(n)
  })()
  const copy = join(tempFolder(), 'copy.db')
  expect(await backup.run({ data }, [copy])).toBe(0)
  copying.done = true
  await sending
  await server.stop('SIGTERM')
  expect(readFileSync(`${copy}.sha256`, 'utf8')).toMatch(/^[0-9a-f]{64}  copy\.db\n$/)
  await expect(backup.run({ data }, [copy])).rejects.toThrow(/exists already/)
  const empty = tempFolder()
  expect(await restore.run({ data: empty }, [copy])).toBe(0)
  const store = await openSqliteStore(join(empty, 'holdfast.db'))
  expect((await store.readings.newest()).map((r) => r.probe)).toContain('heron')
  expect((await store.batches.list({ limit: 9 })).length).toBe(1)
  await store.close()
})

test('a restore keeps what stood there and refuses what it can’t trust', async () => {
  const data = await furnished()
  const copy = join(tempFolder(), 'copy.db')
  await backup.run({ data }, [copy])
  await restore.run({ data }, [copy])
  expect(readdirSync(data).sort()).toEqual(['holdfast.db', 'holdfast.db.replaced-1'])
  const bytes = readFileSync(copy)
  bytes[5000]! ^= 255
  writeFileSync(copy, bytes)
  await expect(restore.run({ data }, [copy])).rejects.toThrow(/is not what the backup wrote/)
  const newer = join(tempFolder(), 'newer.db')
  await backup.run({ data }, [newer])
  const db = new Database(newer)
  db.pragma('user_version = 99')
  db.close()
  rmSync(`${newer}.sha256`)
  await expect(restore.run({ data }, [newer])).rejects.toThrow(/newer\.db was written by a newer Holdfast/)
  expect(readdirSync(data).sort()).toEqual(['holdfast.db', 'holdfast.db.replaced-1'])
})

test('a batch is written so that it can be read and replayed without the program', async () => {
  const data = await furnished()
  const out = join(tempFolder(), 'out')
  expect(await exportCommand.run({ data, out }, ['1'])).toBe(0)
  expect(readdirSync(out).sort()).toEqual(['batch.json', 'plan.plan.json', 'sheet.html', 'trace.csv'])
  const csv = readFileSync(join(out, 'trace.csv'), 'utf8').split('\r\n')
  expect(csv[0]).toBe('time,temp_c,event')
  expect(csv[1]).toBe('2026-01-10T08:00:00.000Z,,stage:mordant')
  expect(csv.filter((line) => /,8[012],$/.test(line)).length).toBe(3)
  expect(JSON.parse(readFileSync(join(out, 'batch.json'), 'utf8'))).toMatchObject({
    id: 1,
    title: '=1+1',
    state: 'ended',
  })
  await expect(exportCommand.run({ data, out }, ['1'])).rejects.toThrow(/not empty/)
  await expect(exportCommand.run({ data, out: `${out}2` }, ['9'])).rejects.toThrow('there is no batch 9')
  const all = join(tempFolder(), 'all')
  await exportCommand.run({ data, out: all, all: true }, [])
  expect(existsSync(join(all, 'batch-1', 'trace.csv'))).toBe(true)
  expect(readFileSync(join(all, 'batches.csv'), 'utf8')).toContain("'=1+1")
})
