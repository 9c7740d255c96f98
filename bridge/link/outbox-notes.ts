import type Database from 'better-sqlite3'
import { CLOCK_NEVER_SET_MS } from '#core/wire/senml'

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
    this.#setOffsetOf(this.#boot, offsetMs)
  }

  /** What is to be added to the times of this boot's rows, ms. */
  offsetOf(boot: string): number {
    return this.#offsets.get(boot) ?? 0
  }

  /**
   * Earlier runs whose clock was never set and that met no server: each is laid right before the run after it, so
   * that their rows keep their order and their distances. `runStartMs`: when this run began, by its own clock.
   */
  placeOldRuns(runStartMs: number): void {
    let beforeMs = runStartMs + this.offsetOf(this.#boot)
    const runs = this.#db.prepare<[string], { boot: string; first: number; last: number }>(
      `SELECT boot, min(at_ms) AS first, max(at_ms) AS last FROM waiting WHERE boot != ?
       GROUP BY boot ORDER BY max(id) DESC`,
    )
    for (const { boot, first, last } of runs.all(this.#boot)) {
      if (last < CLOCK_NEVER_SET_MS && !this.#offsets.has(boot)) this.#setOffsetOf(boot, beforeMs - 1 - last)
      beforeMs = Math.min(beforeMs, first + this.offsetOf(boot))
    }
  }

  keep(key: string, value: string): void {
    this.#write('INSERT OR REPLACE INTO kept (key, value) VALUES (?, ?)', key, value)
  }

  kept(key: string): string | null {
    const row = this.#db.prepare<[string], { value: string }>('SELECT value FROM kept WHERE key = ?').get(key)
    return row?.value ?? null
  }

  #setOffsetOf(boot: string, offsetMs: number): void {
    const whole = Math.round(offsetMs)
    this.#offsets.set(boot, whole)
    this.#write('INSERT OR REPLACE INTO boots (boot, offset_ms) VALUES (?, ?)', boot, whole)
  }

  #write(sql: string, ...values: readonly (string | number)[]): void {
    try {
      this.#db.prepare(sql).run(...values)
    } catch (error) {
      this.#onRefused(error)
    }
  }
}
