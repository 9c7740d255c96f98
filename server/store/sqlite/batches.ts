import type Database from 'better-sqlite3'
import type { StageOutcome } from '#core/plan/outcome'
import type { Plan } from '#core/plan/plan'
import type { BathLot, BatchSummary, StageRun } from '#core/wire/records'
import {
  type BatchQuery,
  type BatchStore,
  type NewBatch,
  type NewStageRun,
  type RunOfBatch,
  type StoredBatch,
  bathId,
} from '../batches.ts'
import { type BatchRow, type RunRow, SELECT_BATCH, toRun, toSummary } from './batch-rows.ts'

export class SqliteBatches implements BatchStore {
  readonly #db: Database.Database

  constructor(db: Database.Database) {
    this.#db = db
  }

  async add(b: NewBatch): Promise<StoredBatch> {
    const { lastInsertRowid } = this.#db
      .prepare(
        `insert into batch (title, plan_id, plan_version, dry_weight_g, made_ms, bath_of, state)
         values (?, ?, ?, ?, ?, ?, 'planned')`,
      )
      .run(b.title, b.planId, b.planVersion, b.dryWeightG, b.madeMs, b.bathOf ?? null)
    return (await this.get(Number(lastInsertRowid)))!
  }

  async list(query: BatchQuery): Promise<readonly BatchSummary[]> {
    const state = query.state === undefined ? '' : 'and b.state = @state'
    const rows = this.#db
      .prepare<[object], BatchRow>(
        `${SELECT_BATCH} where b.id < @before ${state} order by b.id desc limit @limit`,
      )
      .all({ before: query.beforeId ?? Number.MAX_SAFE_INTEGER, limit: query.limit, state: query.state })
    return rows.map(toSummary)
  }

  async get(id: number): Promise<StoredBatch | null> {
    const row = this.#db.prepare<[number], BatchRow>(`${SELECT_BATCH} where b.id = ?`).get(id)
    if (row === undefined) return null
    const summary = toSummary(row)
    const bath = bathId(summary)
    const plan = JSON.parse(row.plan) as Plan
    const stages = this.#runs('where batch_id = ? order by started_ms, id', [bath])
    return { ...summary, planVersion: row.plan_version, plan, lots: this.#lots(bath), stages }
  }

  #lots(bath: number): readonly BathLot[] {
    const lots = this.#db
      .prepare<[number, number], BathLot>(
        'select id, title, dry_weight_g as dryWeightG from batch where id = ? or bath_of = ? order by id',
      )
      .all(bath, bath)
    return lots.length > 1 ? lots : []
  }

  async startStage(run: NewStageRun): Promise<StageRun> {
    return this.#db.transaction(() => this.#start(run)).immediate()
  }

  async end(id: number, endedMs: number): Promise<void> {
    this.#db
      .transaction(() => {
        this.#endRuns('batch_id = ?', endedMs, id)
        this.#db.prepare(`update batch set state = 'ended', ended_ms = ? where id = ?`).run(endedMs, id)
      })
      .immediate()
  }

  async change(id: number, to: { title: string; dryWeightG: number | null }): Promise<void> {
    this.#db
      .prepare('update batch set title = ?, dry_weight_g = ? where id = ?')
      .run(to.title, to.dryWeightG, id)
  }

  async setOutcome(runId: number, outcome: StageOutcome): Promise<void> {
    this.#db.prepare('update stage_run set outcome = ? where id = ?').run(JSON.stringify(outcome), runId)
  }

  async running(): Promise<readonly RunOfBatch[]> {
    return this.#runs('where ended_ms is null order by started_ms, id', [])
  }

  async runsOn(probe: string, fromMs: number, toMs: number): Promise<readonly RunOfBatch[]> {
    return this.#runs(
      'where probe = ? and started_ms <= ? and (ended_ms is null or ended_ms >= ?) order by started_ms, id',
      [probe, toMs, fromMs],
    )
  }

  #start(run: NewStageRun): StageRun {
    this.#endRuns('batch_id = ?', run.startedMs, run.batchId)
    this.#endRuns('pot_id = ?', run.startedMs, run.potId)
    const { lastInsertRowid } = this.#db
      .prepare(
        `insert into stage_run (batch_id, stage_id, pot_id, probe, started_ms, litres)
         values (?, ?, ?, ?, ?, (select json_extract(vessel, '$.litres') from pot where id = ?))`,
      )
      .run(run.batchId, run.stageId, run.potId, run.probe, run.startedMs, run.potId)
    this.#db
      .prepare(`update batch set state = 'running', ended_ms = null, pot_id = ? where id = ?`)
      .run(run.potId, run.batchId)
    return this.#runs('where id = ?', [Number(lastInsertRowid)])[0]!
  }

  /** A stage never ends before it began, whatever time was typed. */
  #endRuns(where: string, endedMs: number, key: number | string): void {
    this.#db
      .prepare(`update stage_run set ended_ms = max(started_ms, ?) where ${where} and ended_ms is null`)
      .run(endedMs, key)
  }

  #runs(where: string, params: readonly (number | string)[]): readonly RunOfBatch[] {
    return this.#db
      .prepare<(number | string)[], RunRow>(`select * from stage_run ${where}`)
      .all(...params)
      .map(toRun)
  }
}
