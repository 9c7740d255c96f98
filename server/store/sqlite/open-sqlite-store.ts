import { existsSync } from 'node:fs'
import type Database from 'better-sqlite3'
import type { Store } from '../store.ts'
import { StoreRefusal } from '../store-refusal.ts'
import { checkFile } from './check-file.ts'
import { SqliteAlarms } from './alarms.ts'
import { SqliteBatches } from './batches.ts'
import { SqliteEntries } from './entries.ts'
import { SqliteEvents } from './events.ts'
import { SqliteHeat } from './heat.ts'
import { SqliteLookUp } from './look-up.ts'
import { SqliteMessages } from './messages.ts'
import { migrate } from './migrate.ts'
import { SqliteNight } from './night.ts'
import { openDatabase } from './open-database.ts'
import { SqlitePhotos } from './photos.ts'
import { SqlitePlans } from './plans.ts'
import { SqlitePots } from './pots.ts'
import { ProbeIds } from './probe-ids.ts'
import { SqliteProbes } from './probes.ts'
import { SqliteReadings } from './readings.ts'
import { SqliteStock } from './stock.ts'

/**
 * Everything in one SQLite file. Throws `StoreRefusal` with one sentence for a file that can't be used:
 * written by a newer program, damaged, not a database, not writable.
 */
export async function openSqliteStore(file: string): Promise<Store> {
  const db = openDatabase(file)
  try {
    await migrate(db)
  } catch (error) {
    db.close()
    throw error
  }
  return storeOn(db)
}

function storeOn(db: Database.Database): Store {
  const ids = new ProbeIds(db)
  return {
    readings: new SqliteReadings(db, ids),
    probes: new SqliteProbes(db, ids),
    pots: new SqlitePots(db),
    plans: new SqlitePlans(db),
    batches: new SqliteBatches(db),
    events: new SqliteEvents(db),
    entries: new SqliteEntries(db),
    lookUp: new SqliteLookUp(db),
    stock: new SqliteStock(db),
    photos: new SqlitePhotos(db),
    heat: new SqliteHeat(db),
    night: new SqliteNight(db),
    alarms: new SqliteAlarms(db),
    messages: new SqliteMessages(db),
    check: (signal) => checkFile(db.name, signal),
    backup: (to) => backup(db, to),
    inOneCommit: (work) => inOneCommit(db, work),
    probeWrite: async () => probeWrite(db),
    close: async () => void db.close(),
  }
}

async function backup(db: Database.Database, to: string): Promise<void> {
  if (existsSync(to)) throw new StoreRefusal(`${to} exists already; name a file that doesn't`)
  await db.backup(to)
}

/** What opens a transaction of its own within it becomes a part of it (the library's nested transactions). */
async function inOneCommit<T>(db: Database.Database, work: () => Promise<T>): Promise<T> {
  db.exec('begin immediate')
  try {
    const value = await work()
    db.exec('commit')
    return value
  } catch (error) {
    if (db.inTransaction) db.exec('rollback')
    throw error
  }
}

/** Begins and takes back a write: it fails exactly when a write would. */
function probeWrite(db: Database.Database): void {
  db.transaction(() =>
    db.pragma(`user_version = ${Number(db.pragma('user_version', { simple: true }))}`),
  ).immediate()
}
