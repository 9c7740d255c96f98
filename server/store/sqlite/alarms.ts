import type Database from 'better-sqlite3'
import type { AlarmEntry } from '#core/watch/alarm-entry'
import type { AlarmQuery, AlarmStore, StoredAlarm } from '../alarms.ts'

interface Row {
  readonly batch_id: number | null
  readonly entry: string
  readonly text: string
}

export class SqliteAlarms implements AlarmStore {
  readonly #db: Database.Database

  constructor(db: Database.Database) {
    this.#db = db
  }

  async put({ entry, batchId, text }: StoredAlarm): Promise<void> {
    const { alarmId, potId, raisedMs, clearedMs } = entry
    const open = entry.life.kind === 'normal' && clearedMs !== null ? 0 : 1
    this.#db
      .prepare(
        `insert or replace into alarm (id, pot_id, batch_id, raised_ms, cleared_ms, open, entry, text)
         values (@alarmId, @potId, @batchId, @raisedMs, @clearedMs, @open, @entry, @text)`,
      )
      .run({ alarmId, potId, batchId, raisedMs, clearedMs, open, entry: JSON.stringify(entry), text })
  }

  async get(alarmId: number): Promise<StoredAlarm | null> {
    return this.#all('where id = @alarmId', { alarmId })[0] ?? null
  }

  async kept(sinceMs: number): Promise<readonly StoredAlarm[]> {
    return this.#all('where open = 1 or raised_ms >= @sinceMs or cleared_ms >= @sinceMs order by id', {
      sinceMs,
    })
  }

  async list(query: AlarmQuery): Promise<readonly StoredAlarm[]> {
    const pot = query.potId === undefined ? '' : 'and pot_id = @potId'
    const batch = query.batchId === undefined ? '' : 'and batch_id = @batchId'
    const since = query.sinceMs === undefined ? '' : 'and raised_ms >= @sinceMs'
    return this.#all(`where id < @beforeId ${pot} ${batch} ${since} order by id desc limit @limit`, {
      beforeId: Number.MAX_SAFE_INTEGER,
      ...query,
    })
  }

  async lastId(): Promise<number> {
    return this.#db.prepare<[], { id: number }>('select coalesce(max(id), 0) as id from alarm').get()!.id
  }

  #all(where: string, params: object): readonly StoredAlarm[] {
    const rows = this.#db
      .prepare<[object], Row>(`select batch_id, entry, text from alarm ${where}`)
      .all(params)
    return rows.map((row) => ({
      entry: JSON.parse(row.entry) as AlarmEntry,
      batchId: row.batch_id,
      text: row.text,
    }))
  }
}
