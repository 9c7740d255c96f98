import { existsSync, mkdirSync, renameSync } from 'node:fs'
import { dirname } from 'node:path'
import Database from 'better-sqlite3'

const SCHEMA = `
  CREATE TABLE waiting (
    id INTEGER PRIMARY KEY, probe TEXT NOT NULL, boot TEXT NOT NULL, seq INTEGER NOT NULL, at_ms INTEGER NOT NULL,
    raw_c REAL, fault TEXT, found TEXT
  ) STRICT;
  CREATE TABLE refused (
    id INTEGER PRIMARY KEY, probe TEXT NOT NULL, boot TEXT NOT NULL, seq INTEGER NOT NULL, at_ms INTEGER NOT NULL,
    raw_c REAL, fault TEXT, found TEXT, why TEXT NOT NULL
  ) STRICT;
  CREATE TABLE boots (boot TEXT PRIMARY KEY, offset_ms INTEGER NOT NULL) STRICT;
  CREATE TABLE kept (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT;
`
const VERSION = 1

/**
 * Opens the outbox's file, the one connection that it may have. `synchronous=FULL` is set and asserted at every
 * open: the library's build falls back to NORMAL at the second one, and then a power cut takes readings. A file
 * that is broken is set aside under another name, told by `onBroken`, and a new one begun.
 */
export function openOutboxFile(file: string, onBroken: (sentence: string) => void): Database.Database {
  mkdirSync(dirname(file), { recursive: true })
  try {
    return openWhole(file)
  } catch (error) {
    if (!/malformed|not a database/i.test(String(error))) throw error
    const aside = `${file}.broken-${Date.now()}`
    for (const end of ['', '-wal', '-shm']) if (existsSync(file + end)) renameSync(file + end, aside + end)
    onBroken(`the outbox ${file} was broken; it was moved to ${aside} and a new one begun`)
    return openWhole(file)
  }
}

function openWhole(file: string): Database.Database {
  // Whoever else holds the file for longer is treated like a full disk: the bridge must not stand still.
  const db = new Database(file, { timeout: 100 })
  try {
    db.pragma('journal_mode = WAL')
    db.pragma('synchronous = FULL')
    db.pragma('journal_size_limit = 67108864')
    assertDurable(db)
    migrate(db, file)
    return db
  } catch (error) {
    db.close()
    throw error
  }
}

function migrate(db: Database.Database, file: string): void {
  const version = db.pragma('user_version', { simple: true })
  if (version === VERSION) return
  if (version !== 0)
    throw new Error(`the outbox ${file} is of a newer program (${String(version)}); expected ${VERSION}`)
  db.transaction(() => {
    db.exec(SCHEMA)
    db.pragma(`user_version = ${VERSION}`)
  })()
}

/** Throws unless every commit is on the disk before it is answered (2 is FULL). */
export function assertDurable(db: Database.Database): void {
  const synchronous = db.pragma('synchronous', { simple: true })
  const journal = db.pragma('journal_mode', { simple: true })
  if (synchronous !== 2 || journal !== 'wal') {
    throw new Error(`expected synchronous 2 in wal mode, got ${String(synchronous)} in ${String(journal)}`)
  }
}
