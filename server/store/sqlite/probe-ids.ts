import type Database from 'better-sqlite3'

/** Probe names ↔ the small numbers that stand in every reading. */
export class ProbeIds {
  readonly #find: Database.Statement<[string], { id: number }>
  readonly #make: Database.Statement<[string, number]>
  readonly #ids = new Map<string, number>()

  constructor(db: Database.Database) {
    this.#find = db.prepare('select id from probe where name = ?')
    this.#make = db.prepare('insert into probe (name, first_seen_ms, accepted) values (?, ?, 0)')
  }

  find(name: string): number | undefined {
    const known = this.#ids.get(name)
    if (known !== undefined) return known
    const id = this.#find.get(name)?.id
    if (id !== undefined) this.#ids.set(name, id)
    return id
  }

  /** A probe not heard of before becomes known; call inside a transaction, and `forget` when it fails. */
  findOrMake(name: string, atMs: number): number {
    return this.find(name) ?? Number(this.#make.run(name, atMs).lastInsertRowid)
  }

  /** After a transaction was rolled back, what it had made is not there. */
  forget(): void {
    this.#ids.clear()
  }
}
