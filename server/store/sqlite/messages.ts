import type Database from 'better-sqlite3'
import type { Message, MessageStore } from '../messages.ts'

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

  async add({ kind, message }: Message, atMs: number): Promise<void> {
    this.#db
      .prepare('insert or ignore into message (id, at_ms, kind, body) values (?, ?, ?, ?)')
      .run(message.id, atMs, kind, JSON.stringify(message))
  }

  async after(id: number, limit: number): Promise<readonly Message[]> {
    return this.#db
      .prepare<[number, number], MessageRow>('select * from message where id > ? order by id desc limit ?')
      .all(id, limit)
      .toReversed()
      .map(toMessage)
  }

  async since(atMs: number): Promise<readonly Message[]> {
    return this.#db
      .prepare<[number], MessageRow>('select * from message where at_ms >= ? order by id')
      .all(atMs)
      .map(toMessage)
  }

  async lastId(): Promise<number> {
    return this.#db.prepare<[], { id: number }>('select coalesce(max(id), 0) as id from message').get()!.id
  }
}

const toMessage = (row: MessageRow): Message => ({ kind: row.kind, message: JSON.parse(row.body) })
