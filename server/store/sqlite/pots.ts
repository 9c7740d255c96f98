import type Database from 'better-sqlite3'
import type { Vessel } from '#core/bath/vessel'
import type { PotRecord } from '#core/wire/records'
import type { Assignment, PotStore } from '../pots.ts'

interface PotRow {
  readonly id: string
  readonly title: string
  readonly vessel: string | null
  readonly probe: string | null
}
interface AssignmentRow {
  readonly probe: string
  readonly pot_id: string
  readonly from_ms: number
  readonly to_ms: number | null
}

/** Of several probes in a pot the one hung in last is named. */
const POTS = `
  select id, title, vessel,
    (select probe from assignment a where a.pot_id = pot.id and to_ms is null order by a.id desc limit 1) as probe
  from pot where gone_ms is null`

export class SqlitePots implements PotStore {
  readonly #db: Database.Database

  constructor(db: Database.Database) {
    this.#db = db
  }

  async list(): Promise<readonly PotRecord[]> {
    return this.#db.prepare<[], PotRow>(`${POTS} order by rowid`).all().map(toPot)
  }

  async get(id: string): Promise<PotRecord | null> {
    const row = this.#db.prepare<[string], PotRow>(`${POTS} and id = ?`).get(id)
    return row === undefined ? null : toPot(row)
  }

  /** A pot that left the stove may come back under its name. */
  async add(pot: { id: string; title: string; vessel: Vessel | null }): Promise<void> {
    this.#db
      .prepare(
        `insert into pot (id, title, vessel) values (?, ?, ?)
         on conflict (id) do update set title = excluded.title, vessel = excluded.vessel, gone_ms = null`,
      )
      .run(pot.id, pot.title, toText(pot.vessel))
  }

  async change(id: string, to: { title: string; vessel: Vessel | null }): Promise<void> {
    this.#db
      .transaction(() => {
        this.#db
          .prepare('update pot set title = ?, vessel = ? where id = ?')
          .run(to.title, toText(to.vessel), id)
        this.#db
          .prepare('update stage_run set litres = ? where pot_id = ? and ended_ms is null')
          .run(to.vessel?.litres ?? null, id)
      })
      .immediate()
  }

  async remove(id: string, atMs: number): Promise<void> {
    this.#db
      .transaction(() => {
        this.#db.prepare('update pot set gone_ms = ? where id = ?').run(atMs, id)
        this.#db.prepare('update assignment set to_ms = ? where pot_id = ? and to_ms is null').run(atMs, id)
      })
      .immediate()
  }

  async assign(probe: string, potId: string, fromMs: number): Promise<void> {
    this.#db
      .transaction(() => {
        this.#db
          .prepare('update assignment set to_ms = ? where probe = ? and to_ms is null')
          .run(fromMs, probe)
        this.#db
          .prepare('insert into assignment (probe, pot_id, from_ms) values (?, ?, ?)')
          .run(probe, potId, fromMs)
      })
      .immediate()
  }

  async unassign(probe: string, potId: string, toMs: number): Promise<void> {
    this.#db
      .prepare('update assignment set to_ms = ? where probe = ? and pot_id = ? and to_ms is null')
      .run(toMs, probe, potId)
  }

  async assignments(sinceMs: number): Promise<readonly Assignment[]> {
    const rows = this.#db
      .prepare<[number], AssignmentRow>(
        'select * from assignment where to_ms is null or to_ms >= ? order by from_ms, id',
      )
      .all(sinceMs)
    return rows.map((r) => ({ probe: r.probe, potId: r.pot_id, fromMs: r.from_ms, toMs: r.to_ms }))
  }
}

const toText = (vessel: Vessel | null): string | null => (vessel === null ? null : JSON.stringify(vessel))

const toPot = (row: PotRow): PotRecord => ({
  id: row.id,
  title: row.title,
  vessel: row.vessel === null ? null : (JSON.parse(row.vessel) as Vessel),
  probe: row.probe,
})
