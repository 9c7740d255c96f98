import type Database from 'better-sqlite3'
import type { NightStore, WakeWish } from '../night.ts'

interface WishRow {
  readonly wake_at: string | null
  readonly lift_c: number
}

export class SqliteNight implements NightStore {
  readonly #db: Database.Database

  constructor(db: Database.Database) {
    this.#db = db
  }

  async wakeWish(): Promise<WakeWish | null> {
    const row = this.#db.prepare<[], WishRow>('select wake_at, lift_c from wake_wish').get()
    return row === undefined ? null : { wakeAt: row.wake_at, liftC: row.lift_c }
  }

  async setWakeWish({ wakeAt, liftC }: WakeWish): Promise<void> {
    this.#db
      .prepare('insert or replace into wake_wish (id, wake_at, lift_c) values (1, ?, ?)')
      .run(wakeAt, liftC)
  }
}
