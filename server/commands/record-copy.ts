import { existsSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { openSqliteStore } from '../store/sqlite/open-sqlite-store.ts'
import { StoreRefusal } from '../store/store-refusal.ts'
import type { Store } from '../store/store.ts'
import { UsageError } from './command.ts'
import { type DataHolder, holderOf } from './data-lock.ts'

/**
 * Writes a copy of the record of this data folder to `file`. While a server runs it is asked for it: the database
 * has exactly one connection that writes.
 */
export async function copyRecord(data: string, file: string): Promise<void> {
  const holder = holderOf(data)
  if (holder?.url === undefined) await copyDirectly(data, file)
  else await askServer(holder, file)
}

/** Lets `work` read the record: its own file, or a copy while a server runs. */
export async function withRecord<T>(data: string, work: (store: Store) => Promise<T>): Promise<T> {
  if (holderOf(data)?.url === undefined) return withStore(databaseIn(data), work)
  const folder = mkdtempSync(join(tmpdir(), 'holdfast-copy-'))
  try {
    const file = join(folder, 'holdfast.db')
    await copyRecord(data, file)
    return await withStore(file, work)
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

async function askServer(holder: DataHolder, file: string): Promise<void> {
  const answer = await fetch(`${holder.url}/api/backup`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', authorization: `Bearer ${holder.key}` },
    body: JSON.stringify({ file }),
  })
  if (answer.ok) return
  const problem = (await answer.json()) as { detail?: string }
  throw new Error(`the server at ${holder.url} made no copy: ${problem.detail ?? answer.status}`)
}

const copyDirectly = (data: string, file: string): Promise<void> =>
  withStore(databaseIn(data), (store) => store.backup(file))

async function withStore<T>(database: string, work: (store: Store) => Promise<T>): Promise<T> {
  const store = await openSqliteStore(database).catch(asUsage)
  try {
    return await work(store)
  } catch (error) {
    return asUsage(error)
  } finally {
    await store.close()
  }
}

function databaseIn(data: string): string {
  const database = join(data, 'holdfast.db')
  if (!existsSync(database))
    throw new UsageError(`there is no record in ${data}; name its folder with --data`)
  return database
}

function asUsage(error: unknown): never {
  throw error instanceof StoreRefusal ? new UsageError(error.message) : error
}
