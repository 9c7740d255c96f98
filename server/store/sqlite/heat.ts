import type Database from 'better-sqlite3'
import type { ClaimKind } from '#core/bath/told-claim'
import type { HeatStore, Lesson, TaughtTrace, ToldForecast } from '../heat.ts'

interface TaughtRow {
  readonly pot_id: string
  readonly from_ms: number
  readonly to_ms: number
  readonly batch_id: number | null
  readonly litres: number
  readonly lesson: string | null
}

interface ToldRow {
  readonly pot_id: string
  readonly made_ms: number
  readonly kind: ClaimKind
  readonly stage_id: string
  readonly told: number
  readonly low90: number
  readonly high90: number
  readonly from_traces: number
}

export class SqliteHeat implements HeatStore {
  readonly #db: Database.Database

  constructor(db: Database.Database) {
    this.#db = db
  }

  async taught(potId: string): Promise<readonly TaughtTrace[]> {
    return this.#db
      .prepare<[string], TaughtRow>('select * from taught_trace where pot_id = ? order by from_ms')
      .all(potId)
      .map((row) => ({
        potId: row.pot_id,
        fromMs: row.from_ms,
        toMs: row.to_ms,
        batchId: row.batch_id,
        litres: row.litres,
        lesson: row.lesson === null ? null : (JSON.parse(row.lesson) as Lesson),
      }))
  }

  async putTaught(t: TaughtTrace): Promise<void> {
    this.#db
      .prepare(
        `insert or replace into taught_trace (pot_id, from_ms, to_ms, batch_id, litres, lesson)
         values (?, ?, ?, ?, ?, ?)`,
      )
      .run(
        t.potId,
        t.fromMs,
        t.toMs,
        t.batchId,
        t.litres,
        t.lesson === null ? null : JSON.stringify(t.lesson),
      )
  }

  async removeTaught(potId: string, fromMs: number): Promise<void> {
    this.#db.prepare('delete from taught_trace where pot_id = ? and from_ms = ?').run(potId, fromMs)
  }

  async burnerChanges(potId: string): Promise<readonly number[]> {
    return this.#db
      .prepare<[string], { readonly at_ms: number }>(
        'select at_ms from burner_change where pot_id = ? order by at_ms',
      )
      .all(potId)
      .map((row) => row.at_ms)
  }

  async addBurnerChange(change: { potId: string; atMs: number; who: string | null }): Promise<void> {
    this.#db
      .prepare('insert into burner_change (pot_id, at_ms, who) values (?, ?, ?)')
      .run(change.potId, change.atMs, change.who)
  }

  async addTold(told: readonly ToldForecast[]): Promise<void> {
    const add = this.#db.prepare(
      `insert or ignore into told_forecast (pot_id, made_ms, kind, stage_id, told, low90, high90, from_traces)
       values (?, ?, ?, ?, ?, ?, ?, ?)`,
    )
    this.#db
      .transaction(() => {
        for (const t of told)
          add.run(t.potId, t.madeMs, t.kind, t.stageId, t.told, t.low90, t.high90, t.fromTraces)
      })
      .immediate()
  }

  async told(potId: string, fromMs: number, toMs: number): Promise<readonly ToldForecast[]> {
    return this.#db
      .prepare<[string, number, number], ToldRow>(
        'select * from told_forecast where pot_id = ? and made_ms between ? and ? order by made_ms, kind',
      )
      .all(potId, fromMs, toMs)
      .map(({ pot_id: pot, stage_id: stageId, made_ms: madeMs, from_traces: fromTraces, ...claim }) =>
        Object.assign(claim, { potId: pot, stageId, madeMs, fromTraces }),
      )
  }

  async evenings(): Promise<readonly { potId: string; body: unknown }[]> {
    return this.#db
      .prepare<[], { readonly pot_id: string; readonly body: string }>('select * from evening')
      .all()
      .map((row) => ({ potId: row.pot_id, body: JSON.parse(row.body) as unknown }))
  }

  async setEvening(potId: string, body: unknown): Promise<void> {
    if (body === null) this.#db.prepare('delete from evening where pot_id = ?').run(potId)
    else
      this.#db
        .prepare('insert or replace into evening (pot_id, body) values (?, ?)')
        .run(potId, JSON.stringify(body))
  }
}
