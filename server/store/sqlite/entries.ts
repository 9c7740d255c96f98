import type Database from 'better-sqlite3'
import type { Entry, EntryStore } from '../entries.ts'

interface EntryRow {
  readonly id: number
  readonly batch_id: number
  readonly at_ms: number
  readonly noted_ms: number
  readonly who: string | null
  readonly kind: string
  readonly body: string
  readonly replaces: number | null
}

export class SqliteEntries implements EntryStore {
  readonly #db: Database.Database

  constructor(db: Database.Database) {
    this.#db = db
  }

  async add(e: Omit<Entry, 'id'>): Promise<Entry> {
    const { lastInsertRowid } = this.#db
      .prepare(
        'insert into entry (batch_id, at_ms, noted_ms, who, kind, body, replaces) values (?, ?, ?, ?, ?, ?, ?)',
      )
      .run(e.batchId, e.atMs, e.notedMs, e.who, e.kind, JSON.stringify(e.body), e.replaces)
    return { ...e, id: Number(lastInsertRowid) }
  }

  async ofBatch(batchId: number): Promise<readonly Entry[]> {
    const rows = this.#db
      .prepare<[number], EntryRow>('select * from entry where batch_id = ? order by at_ms, id')
      .all(batchId)
    return rows.map((row) => ({
      id: row.id,
      batchId: row.batch_id,
      atMs: row.at_ms,
      notedMs: row.noted_ms,
      who: row.who,
      kind: row.kind,
      body: JSON.parse(row.body),
      replaces: row.replaces,
    }))
  }
}
