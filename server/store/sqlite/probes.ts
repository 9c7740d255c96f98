import type Database from 'better-sqlite3'
import type { CorrectionRecord, ProbeChange, ProbeRecord, ProbeStore } from '../probes.ts'
import type { ProbeIds } from './probe-ids.ts'

interface ProbeRow {
  readonly name: string
  readonly first_seen_ms: number
  readonly accepted: number
  readonly setting: string | null
  readonly changed_ms: number | null
}
interface CorrectionRow {
  readonly id: number
  readonly probe: string
  readonly from_ms: number
  readonly made_ms: number
  readonly who: string | null
  readonly body: string
}

export class SqliteProbes implements ProbeStore {
  readonly #db: Database.Database
  readonly #ids: ProbeIds

  constructor(db: Database.Database, ids: ProbeIds) {
    this.#db = db
    this.#ids = ids
  }

  async list(): Promise<readonly ProbeRecord[]> {
    const rows = this.#db
      .prepare<[], ProbeRow>(
        `select *, (select max(at_ms) from probe_change c where c.probe = p.name) as changed_ms
         from probe p order by name`,
      )
      .all()
    return rows.map((row) => ({
      name: row.name,
      firstSeenMs: row.first_seen_ms,
      accepted: row.accepted === 1,
      setting: row.setting === null ? null : JSON.parse(row.setting),
      removedMs: row.setting === null ? row.changed_ms : null,
    }))
  }

  async see(name: string, atMs: number, accepted: boolean): Promise<void> {
    this.#db
      .prepare('insert or ignore into probe (name, first_seen_ms, accepted) values (?, ?, ?)')
      .run(name, atMs, accepted ? 1 : 0)
  }

  async accept(name: string): Promise<void> {
    this.#db.prepare('update probe set accepted = 1 where name = ?').run(name)
  }

  async setSetting(name: string, { setting, noted, atMs }: ProbeChange): Promise<void> {
    await this.see(name, atMs, true)
    this.#db
      .transaction(() => {
        this.#db
          .prepare('update probe set setting = ?, accepted = 1 where name = ?')
          .run(toText(setting), name)
        this.#db
          .prepare('insert into probe_change (probe, at_ms, setting) values (?, ?, ?)')
          .run(name, atMs, toText(noted))
      })
      .immediate()
  }

  async changes(name: string): Promise<readonly { atMs: number; setting: object | null }[]> {
    const rows = this.#db
      .prepare<[string], { at_ms: number; setting: string | null }>(
        'select at_ms, setting from probe_change where probe = ? order by id',
      )
      .all(name)
    return rows.map((row) => ({
      atMs: row.at_ms,
      setting: row.setting === null ? null : (JSON.parse(row.setting) as object),
    }))
  }

  async addCorrection(c: Omit<CorrectionRecord, 'id'>): Promise<CorrectionRecord> {
    await this.see(c.probe, c.madeMs, false)
    const { lastInsertRowid } = this.#db
      .prepare('insert into correction (probe_id, from_ms, made_ms, who, body) values (?, ?, ?, ?, ?)')
      .run(this.#ids.find(c.probe), c.fromMs, c.madeMs, c.who, JSON.stringify(c.body))
    return { ...c, id: Number(lastInsertRowid) }
  }

  async corrections(): Promise<readonly CorrectionRecord[]> {
    const rows = this.#db
      .prepare<[], CorrectionRow>(
        `select c.id, p.name as probe, c.from_ms, c.made_ms, c.who, c.body
         from correction c join probe p on p.id = c.probe_id order by c.from_ms, c.id`,
      )
      .all()
    return rows.map((row) => ({
      id: row.id,
      probe: row.probe,
      fromMs: row.from_ms,
      madeMs: row.made_ms,
      who: row.who,
      body: JSON.parse(row.body),
    }))
  }
}

const toText = (setting: unknown): string | null => (setting === null ? null : JSON.stringify(setting))
