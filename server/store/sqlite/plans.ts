import type Database from 'better-sqlite3'
import type { Plan } from '#core/plan/plan'
import type { PlanRecord } from '#core/wire/records'
import type { PlanStore } from '../plans.ts'

interface PlanRow {
  readonly plan_id: number
  readonly version: number
  readonly saved_ms: number
  readonly body: string
}

const NEWEST = 'version = (select max(version) from plan_version n where n.plan_id = plan_version.plan_id)'

export class SqlitePlans implements PlanStore {
  readonly #db: Database.Database

  constructor(db: Database.Database) {
    this.#db = db
  }

  async list(): Promise<readonly PlanRecord[]> {
    return this.#all(`where ${NEWEST} order by saved_ms desc, plan_id desc`, [])
  }

  async get(id: number, version?: number): Promise<PlanRecord | null> {
    const which = version === undefined ? NEWEST : 'version = ?'
    const rows = this.#all(`where plan_id = ? and ${which}`, version === undefined ? [id] : [id, version])
    return rows[0] ?? null
  }

  async versions(id: number): Promise<readonly PlanRecord[]> {
    return this.#all('where plan_id = ? order by version', [id])
  }

  async add(plan: Plan, savedMs: number): Promise<PlanRecord> {
    return this.#db
      .transaction(() => {
        const id = Number(this.#db.prepare('insert into plan default values').run().lastInsertRowid)
        return this.#write({ id, version: 1, savedMs, plan })
      })
      .immediate()
  }

  async addVersion(id: number, plan: Plan, savedMs: number): Promise<PlanRecord | null> {
    const newest = await this.get(id)
    return newest === null ? null : this.#write({ id, version: newest.version + 1, savedMs, plan })
  }

  #write(record: PlanRecord): PlanRecord {
    this.#db
      .prepare('insert into plan_version values (?, ?, ?, ?)')
      .run(record.id, record.version, record.savedMs, JSON.stringify(record.plan))
    return record
  }

  #all(where: string, params: readonly number[]): readonly PlanRecord[] {
    const rows = this.#db.prepare<number[], PlanRow>(`select * from plan_version ${where}`).all(...params)
    return rows.map((row) => ({
      id: row.plan_id,
      version: row.version,
      savedMs: row.saved_ms,
      plan: JSON.parse(row.body) as Plan,
    }))
  }
}
