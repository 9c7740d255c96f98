import type Database from 'better-sqlite3'

/** Small things that the bridge keeps beside its rows: how far its clock was off, the last good settings. */
export class OutboxNotes {
  readonly #db: Database.Database
  readonly #boot: string
  readonly #onRefused: (error: unknown) => void
  readonly #offsets: Map<string, number>

  /** `onRefused`: the disk would not take a note; the one before stays. */
  constructor(db: Database.Database, boot: string, onRefused: (error: unknown) => void) {
    this.#db = db
    this.#boot = boot
    this.#onRefused = onRefused
    const all = db.prepare<[], { boot: string; offset_ms: number }>('SELECT boot, offset_ms FROM boots').all()
    this.#offsets = new Map(all.map((r) => [r.boot, r.offset_ms]))
  }

  /** How far this run's clock is off the server's, ms, found once; kept for the rows that wait over a restart. */
  setOffset(offsetMs: number): void {
    const whole = Math.round(offsetMs)
    this.#offsets.set(this.#boot, whole)
    this.#write('INSERT OR REPLACE INTO boots (boot, offset_ms) VALUES (?, ?)', this.#boot, whole)
  }

  /** What is to be added to the times of this boot's rows, ms. */
  offsetOf(boot: string): number {
    return this.#offsets.get(boot) ?? 0
  }

  keep(key: string, value: string): void {
    this.#write('INSERT OR REPLACE INTO kept (key, value) VALUES (?, ?)', key, value)
  }

  kept(key: string): string | null {
    const row = this.#db.prepare<[string], { value: string }>('SELECT value FROM kept WHERE key = ?').get(key)
    return row?.value ?? null
  }

  #write(sql: string, ...values: readonly (string | number)[]): void {
    try {
      this.#db.prepare(sql).run(...values)
    } catch (error) {
      this.#onRefused(error)
    }
  }
}
