import type Database from 'better-sqlite3'
import { eventWord, parseEvent } from '#core/plan/event'
import type { EventStore, NewEvent, StoredEvent } from '../events.ts'

interface EventRow {
  readonly id: number
  readonly at_ms: number
  readonly noted_ms: number
  readonly pot_id: string | null
  readonly batch_id: number | null
  readonly stage_id: string | null
  readonly word: string
  readonly who: string | null
  readonly struck_ms: number | null
}

export class SqliteEvents implements EventStore {
  readonly #db: Database.Database

  constructor(db: Database.Database) {
    this.#db = db
  }

  async add(e: NewEvent): Promise<StoredEvent> {
    const { lastInsertRowid } = this.#db
      .prepare(
        `insert into event (at_ms, noted_ms, pot_id, batch_id, stage_id, word, who)
         values (?, ?, ?, ?, ?, ?, ?)`,
      )
      .run(e.atMs, e.notedMs, e.potId, e.batchId, e.stageId, eventWord(e.event), e.who)
    return { ...e, id: Number(lastInsertRowid), struckMs: null }
  }

  async strike(id: number, atMs: number, who: string | null): Promise<StoredEvent | null> {
    const row = this.#db
      .prepare<[number, string | null, number], EventRow>(
        'update event set struck_ms = ?, struck_by = ? where id = ? and struck_ms is null returning *',
      )
      .get(atMs, who, id)
    return row === undefined ? null : toEvent(row)
  }

  async ofBatch(batchId: number): Promise<readonly StoredEvent[]> {
    return this.#db
      .prepare<[number], EventRow>('select * from event where batch_id = ? order by at_ms, id')
      .all(batchId)
      .map(toEvent)
  }

  async ofPot(potId: string, sinceMs: number): Promise<readonly StoredEvent[]> {
    return this.#db
      .prepare<[string, number], EventRow>(
        'select * from event where pot_id = ? and at_ms >= ? and struck_ms is null order by at_ms, id',
      )
      .all(potId, sinceMs)
      .map(toEvent)
  }
}

function toEvent(row: EventRow): StoredEvent {
  const parsed = parseEvent(row.word)
  if (!parsed.ok) throw new Error(`event ${row.id} in the database: ${parsed.why}`)
  return {
    id: row.id,
    atMs: row.at_ms,
    notedMs: row.noted_ms,
    potId: row.pot_id,
    batchId: row.batch_id,
    stageId: row.stage_id,
    event: parsed.event,
    who: row.who,
    struckMs: row.struck_ms,
  }
}
