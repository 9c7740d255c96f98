import type Database from 'better-sqlite3'
import type { AlarmChange, AlarmQuery, AlarmStore, NewAlarm, StoredAlarm } from '../alarms.ts'

/** The columns under the names of the record. */
const SELECT = `
  select id as alarmId, alarm, urgency, pot_id as potId, batch_id as batchId, stage_id as stageId,
    since_ms as sinceMs, raised_ms as raisedMs, cleared_ms as clearedMs, acknowledged_ms as acknowledgedMs,
    acknowledged_by as acknowledgedBy, shelved_until_ms as shelvedUntilMs, temp_c as tempC, limit_c as limitC,
    peak_c as peakC, text, found_late as foundLate
  from alarm`

type Row = Omit<StoredAlarm, 'foundLate'> & { readonly foundLate: number }

const COLUMNS: Readonly<Record<keyof AlarmChange, string>> = {
  clearedMs: 'cleared_ms',
  peakC: 'peak_c',
  acknowledgedMs: 'acknowledged_ms',
  acknowledgedBy: 'acknowledged_by',
  shelvedUntilMs: 'shelved_until_ms',
  urgency: 'urgency',
  text: 'text',
}

export class SqliteAlarms implements AlarmStore {
  readonly #db: Database.Database

  constructor(db: Database.Database) {
    this.#db = db
  }

  async raise(a: NewAlarm): Promise<StoredAlarm> {
    const { lastInsertRowid } = this.#db
      .prepare(
        `insert into alarm (alarm, urgency, pot_id, batch_id, stage_id, since_ms, raised_ms, temp_c, limit_c,
           text, found_late)
         values (@alarm, @urgency, @potId, @batchId, @stageId, @sinceMs, @raisedMs, @tempC, @limitC, @text, @late)`,
      )
      .run({ ...a, late: a.foundLate ? 1 : 0 })
    return this.#get(Number(lastInsertRowid))!
  }

  async change(alarmId: number, change: AlarmChange): Promise<StoredAlarm | null> {
    const fields = (Object.keys(COLUMNS) as (keyof AlarmChange)[]).filter((f) => change[f] !== undefined)
    if (fields.length > 0) {
      const sets = fields.map((f) => `${COLUMNS[f]} = @${f}`).join(', ')
      this.#db.prepare(`update alarm set ${sets} where id = @alarmId`).run({ ...change, alarmId })
    }
    return this.#get(alarmId)
  }

  async get(alarmId: number): Promise<StoredAlarm | null> {
    return this.#get(alarmId)
  }

  async open(): Promise<readonly StoredAlarm[]> {
    return this.#all('where cleared_ms is null or acknowledged_ms is null order by id', {})
  }

  async list(query: AlarmQuery): Promise<readonly StoredAlarm[]> {
    const pot = query.potId === undefined ? '' : 'and pot_id = @potId'
    const batch = query.batchId === undefined ? '' : 'and batch_id = @batchId'
    return this.#all(`where id < @beforeId ${pot} ${batch} order by id desc limit @limit`, {
      beforeId: Number.MAX_SAFE_INTEGER,
      ...query,
    })
  }

  async since(sinceMs: number): Promise<readonly StoredAlarm[]> {
    return this.#all('where raised_ms >= @sinceMs or since_ms >= @sinceMs order by id', { sinceMs })
  }

  #get(id: number): StoredAlarm | null {
    return this.#all('where id = @id', { id })[0] ?? null
  }

  #all(where: string, params: object): readonly StoredAlarm[] {
    const rows = this.#db.prepare<[object], Row>(`${SELECT} ${where}`).all(params)
    return rows.map((row) => Object.assign(row, { foundLate: row.foundLate === 1 }))
  }
}
