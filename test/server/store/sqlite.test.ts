import { existsSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import { describe, expect, test } from 'vitest'
import { migrate, schemaVersion } from '../../../server/store/sqlite/migrate.ts'
import { assertDurable, openDatabase } from '../../../server/store/sqlite/open-database.ts'
import { openSqliteStore } from '../../../server/store/sqlite/open-sqlite-store.ts'
import { good, storeContract } from '../../kit/store-contract.ts'
import { tempFolder } from '../../kit/temp-folder.ts'

describe('the store on SQLite', () => {
  storeContract(() => openSqliteStore(join(tempFolder(), 'holdfast.db')))
})

test('every commit is on disk before it is answered, at the second opening too', () => {
  const file = join(tempFolder(), 'holdfast.db')
  for (let n = 0; n < 3; n += 1) {
    const db = openDatabase(file)
    // https://www.sqlite.org/pragma.html#pragma_synchronous: 2 is FULL.
    expect(db.pragma('synchronous', { simple: true })).toBe(2)
    db.close()
  }
  const lax = new Database(file)
  lax.pragma('synchronous = NORMAL')
  expect(() => assertDurable(lax)).toThrow(/expected synchronous 2/)
  lax.close()
})

test('a file of a newer program is refused with a sentence and left as it was', async () => {
  const file = join(tempFolder(), 'holdfast.db')
  await (await openSqliteStore(file)).close()
  const db = new Database(file)
  db.pragma('user_version = 99')
  db.close()
  await expect(openSqliteStore(file)).rejects.toThrow(/written by a newer Holdfast \(its version is 99/)
})

test('a migration is laid on a copy-first, whole or not at all', async () => {
  const file = join(tempFolder(), 'holdfast.db')
  const db = openDatabase(file)
  await migrate(db, ['create table a (x)'])
  await expect(migrate(db, ['create table a (x)', 'create table b (x); nonsense'])).rejects.toThrow(
    /syntax error/,
  )
  expect(schemaVersion(db)).toBe(1)
  expect(existsSync(`${file}.before-v2`)).toBe(true)
  await migrate(db, ['create table a (x)', 'create table b (x)'])
  expect(schemaVersion(db)).toBe(2)
  db.close()
})

test('a file that is no database is refused by name', async () => {
  const file = join(tempFolder(), 'holdfast.db')
  writeFileSync(file, 'this is a letter, and a long one, so that it is surely not taken for an empty file')
  await expect(openSqliteStore(file)).rejects.toThrow(/is not a database of this program/)
})

test('readings survive closing and opening, and a copy made in between is whole', async () => {
  const folder = tempFolder()
  const file = join(folder, 'holdfast.db')
  const store = await openSqliteStore(file)
  await store.readings.add([{ reading: good(0, 70), serial: { boot: 'a', seq: 0 } }])
  await store.backup(join(folder, 'copy.db'))
  await store.close()
  for (const name of ['holdfast.db', 'copy.db']) {
    const again = await openSqliteStore(join(folder, name))
    expect(await again.readings.newest()).toEqual([good(0, 70)])
    expect(await again.readings.add([{ reading: good(0, 70), serial: { boot: 'a', seq: 0 } }])).toEqual([
      'duplicate',
    ])
    expect(await again.check()).toEqual([])
    await again.probeWrite()
    await again.close()
  }
})
