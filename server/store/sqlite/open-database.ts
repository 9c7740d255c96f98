import { accessSync, constants, existsSync } from 'node:fs'
import { dirname } from 'node:path'
import Database from 'better-sqlite3'
import { StoreRefusal } from '../store-refusal.ts'
import { makeFolder } from '../make-folder.ts'

/**
 * Opens the one connection that this file may have. `synchronous=FULL` is set at every open, because the
 * library's build falls back to NORMAL at the second one, and then a power cut takes acknowledged readings.
 */
export function openDatabase(file: string): Database.Database {
  refuseUnwritable(file)
  const db = open(file)
  try {
    db.pragma('busy_timeout = 5000')
    db.pragma('journal_mode = WAL')
    db.pragma('synchronous = FULL')
    db.pragma('foreign_keys = ON')
    // Fewer, larger checkpoints: 16 MB of log, so that a page written often is carried over once.
    db.pragma('wal_autocheckpoint = 4000')
    db.pragma('journal_size_limit = 67108864')
    assertDurable(db)
    return db
  } catch (error) {
    db.close()
    throw readable(file, error)
  }
}

/** Throws unless every commit is on the disk before it is answered (2 is FULL). */
export function assertDurable(db: Database.Database): void {
  const synchronous = db.pragma('synchronous', { simple: true })
  const journal = db.pragma('journal_mode', { simple: true })
  if (synchronous !== 2 || journal !== 'wal')
    throw new Error(`expected synchronous 2 in wal mode, got ${String(synchronous)} in ${String(journal)}`)
}

function open(file: string): Database.Database {
  try {
    return new Database(file)
  } catch (error) {
    throw readable(file, error)
  }
}

function refuseUnwritable(file: string): void {
  const folder = dirname(file)
  try {
    makeFolder(folder)
    accessSync(folder, constants.W_OK)
    if (existsSync(file)) accessSync(file, constants.W_OK)
  } catch (error) {
    throw new StoreRefusal(
      `the data folder ${folder} can't be written to (${codeOf(error)}); it must be a folder that this user may write`,
    )
  }
}

function readable(file: string, error: unknown): Error {
  const code = codeOf(error)
  if (code === 'SQLITE_NOTADB')
    return new StoreRefusal(
      `${file} is not a database of this program; move it away or restore a backup over it`,
    )
  if (code.startsWith('SQLITE_CORRUPT'))
    return new StoreRefusal(
      `${file} is damaged (${code}); keep a copy of it and restore the newest backup over it`,
    )
  if (/^SQLITE_(READONLY|CANTOPEN|FULL|IOERR|BUSY)/.test(code))
    return new StoreRefusal(
      `${file} can't be opened for writing (${code}); the disk must have room, and one program at a time`,
    )
  return error instanceof Error ? error : new Error(String(error))
}

const codeOf = (error: unknown): string =>
  error instanceof Error && 'code' in error ? String(error.code) : String(error)
