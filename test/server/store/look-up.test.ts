import { join } from 'node:path'
import Database from 'better-sqlite3'
import { describe, expect, test } from 'vitest'
import { FIRST } from '../../../server/store/sqlite/migrations/first.ts'
import { openDatabase } from '../../../server/store/sqlite/open-database.ts'
import { migrate } from '../../../server/store/sqlite/migrate.ts'
import { openSqliteStore } from '../../../server/store/sqlite/open-sqlite-store.ts'
import { lookUpContract } from '../../kit/look-up-contract.ts'
import { plan } from '../../kit/store-contract.ts'
import { tempFolder } from '../../kit/temp-folder.ts'

describe('looking up on SQLite', () => {
  lookUpContract(() => openSqliteStore(join(tempFolder(), 'holdfast.db')))
})

test('batches of a file from before looking up are found after the migration', async () => {
  const file = join(tempFolder(), 'holdfast.db')
  const old = openDatabase(file)
  await migrate(old, [FIRST])
  old.prepare('insert into plan (id) values (1)').run()
  old.prepare('insert into plan_version values (1, 1, 0, ?)').run(JSON.stringify(plan))
  old
    .prepare(
      `insert into batch (id, title, plan_id, plan_version, made_ms, state) values (7, 'Old red', 1, 1, 0, 'ended')`,
    )
    .run()
  old
    .prepare(
      `insert into stage_run (batch_id, stage_id, pot_id, probe, started_ms) values (7, 'mordant', 'heron', 'p1', 0)`,
    )
    .run()
  old.close()
  const store = await openSqliteStore(file)
  const found = await store.lookUp.find({ text: 'old', facets: [{ kind: 'probe', value: 'p1' }], limit: 5 })
  expect(found.map((b) => b.id)).toEqual([7])
  expect(await store.check()).toEqual([])
  await store.close()
})

test('no look-up walks through all batches', async () => {
  const file = join(tempFolder(), 'holdfast.db')
  await (await openSqliteStore(file)).close()
  const db = new Database(file)
  const planOf = (sql: string) =>
    (db.prepare(`explain query plan ${sql}`).all() as { detail: string }[])
      .map((row) => row.detail)
      .join('; ')
  expect(
    planOf(`select batch_id from batch_facet where kind = 'lot' and value = 'x' order by batch_id desc`),
  ).toMatch(/^SEARCH batch_facet USING PRIMARY KEY/)
  expect(
    planOf(`select * from entry where kind = 'weighing' and json_extract(body, '$.lotId') = 1`),
  ).toContain('entry_lot')
  expect(planOf('select 1 from entry where replaces = 5')).toContain('entry_replaces')
  db.close()
})
