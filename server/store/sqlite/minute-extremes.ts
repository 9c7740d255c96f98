import type Database from 'better-sqlite3'

export const MINUTE_MS = 60_000

/** The lowest and highest believed reading of each minute that a commit touches. */
export class MinuteExtremes {
  readonly #store: Database.Statement<[number, number, number, number, number, number]>
  readonly #minutes = new Map<string, Extremes>()
  readonly #lastOf = new Map<number, Extremes>()

  constructor(db: Database.Database) {
    this.#store = db.prepare(`
      insert into minute (probe_id, minute, low_c, low_ms, high_c, high_ms) values (?, ?, ?, ?, ?, ?)
      on conflict (probe_id, minute) do update set
        low_ms = iif(excluded.low_c < low_c, excluded.low_ms, low_ms),
        low_c = min(excluded.low_c, low_c),
        high_ms = iif(excluded.high_c > high_c, excluded.high_ms, high_ms),
        high_c = max(excluded.high_c, high_c)`)
  }

  add(probeId: number, atMs: number, tempC: number): void {
    const m = this.#minute(probeId, Math.floor(atMs / MINUTE_MS), atMs, tempC)
    if (tempC < m.lowC) {
      m.lowC = tempC
      m.lowMs = atMs
    }
    if (tempC > m.highC) {
      m.highC = tempC
      m.highMs = atMs
    }
  }

  /** Writes them and forgets everything. */
  save(): void {
    for (const m of this.#minutes.values())
      this.#store.run(m.probeId, m.minute, m.lowC, m.lowMs, m.highC, m.highMs)
    this.forget()
  }

  forget(): void {
    this.#minutes.clear()
    this.#lastOf.clear()
  }

  #minute(probeId: number, minute: number, atMs: number, tempC: number): Extremes {
    const last = this.#lastOf.get(probeId)
    if (last !== undefined && last.minute === minute) return last
    const key = `${probeId} ${minute}`
    const fresh = { probeId, minute, lowC: tempC, lowMs: atMs, highC: tempC, highMs: atMs }
    const extremes = this.#minutes.get(key) ?? fresh
    this.#minutes.set(key, extremes)
    this.#lastOf.set(probeId, extremes)
    return extremes
  }
}

interface Extremes {
  readonly probeId: number
  readonly minute: number
  lowC: number
  lowMs: number
  highC: number
  highMs: number
}
