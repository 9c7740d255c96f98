import type Database from 'better-sqlite3'
import type { Message, MessageStore, NewMessage } from '../messages.ts'

interface MessageRow {
  readonly id: number
  readonly kind: Message['kind']
  readonly body: string
}

export class SqliteMessages implements MessageStore {
  readonly #db: Database.Database

  constructor(db: Database.Database) {
    this.#db = db
  }

  async add(message: NewMessage, atMs: number): Promise<Message> {
    const body = JSON.stringify(message.message)
    const { lastInsertRowid } = this.#db
      .prepare('insert into message (at_ms, kind, body) values (?, ?, ?)')
      .run(atMs, message.kind, body)
    return numbered({ id: Number(lastInsertRowid), kind: message.kind, body })
  }

  async after(id: number, limit: number): Promise<readonly Message[]> {
    return this.#db
      .prepare<[number, number], MessageRow>('select * from message where id > ? order by id limit ?')
      .all(id, limit)
      .map(numbered)
  }

  async lastId(): Promise<number> {
    const row = this.#db
      .prepare<[], { seq: number }>(`select seq from sqlite_sequence where name = 'message'`)
      .get()
    return row?.seq ?? 0
  }
}

const numbered = (row: MessageRow): Message =>
  ({ kind: row.kind, message: { ...(JSON.parse(row.body) as object), id: row.id } }) as Message
