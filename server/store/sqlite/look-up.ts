import type Database from 'better-sqlite3'
import type { Plan } from '#core/plan/plan'
import type { Result } from '#core/batch/record-line'
import type { BatchSummary } from '#core/wire/records'
import { FACET_KINDS, type FacetCount, type FindQuery, type LookUpStore, type Shade } from '../look-up.ts'
import { type BatchRow, toSummary } from './batch-rows.ts'
import { searchWords } from './search-words.ts'

interface ShadeRow {
  readonly id: number
  readonly title: string
  readonly plan: string
  readonly body: string
}

export class SqliteLookUp implements LookUpStore {
  readonly #db: Database.Database

  constructor(db: Database.Database) {
    this.#db = db
  }

  async find(query: FindQuery): Promise<readonly BatchSummary[]> {
    const words = query.text === undefined || query.text.trim() === '' ? '' : searchWords(query.text)
    if (words === null) return []
    const { sql, params } = findSql(query, words)
    return this.#db
      .prepare<(string | number)[], BatchRow>(sql)
      .all(...params)
      .map(toSummary)
  }

  async facets(limit: number): Promise<readonly FacetCount[]> {
    const ofKind = this.#db.prepare<[string, number], FacetCount>(
      'select kind, value, n as count from facet_count where kind = ? and n > 0 order by n desc, value limit ?',
    )
    return FACET_KINDS.flatMap((kind) => ofKind.all(kind, limit))
  }

  async shades(query: { readonly additive?: string; readonly limit: number }): Promise<readonly Shade[]> {
    const additive = query.additive?.trim().toLowerCase()
    const rows = this.#db
      .prepare<(string | number)[], ShadeRow>(shadeSql(additive))
      .all(...(additive === undefined ? [] : [additive]), query.limit)
    return rows.map((row) => toShade(row, additive))
  }
}

/**
 * Driven by the narrowest thing asked for that has an index in order of the id: the words, else the first facet, else
 * the batches themselves. The rest is looked up batch by batch.
 */
function findSql(query: FindQuery, words: string): { sql: string; params: (string | number)[] } {
  const [first, ...others] = query.facets
  const before = query.beforeId ?? Number.MAX_SAFE_INTEGER
  const driver =
    words !== ''
      ? { from: 'batch_text d', key: 'd.rowid', where: 'batch_text match ? and', params: [words] }
      : first !== undefined
        ? {
            from: 'batch_facet d',
            key: 'd.batch_id',
            where: 'd.kind = ? and d.value = ? and',
            params: [first.kind, first.value],
          }
        : { from: 'batch d', key: 'd.id', where: '', params: [] }
  const rest = words === '' ? others : query.facets
  const isOne = 'exists (select 1 from batch_facet f where f.kind = ? and f.value = ? and f.batch_id = b.id)'
  const conditions = [
    ...rest.map(() => isOne),
    ...(query.fromMs === undefined ? [] : ['b.made_ms >= ?']),
    ...(query.toMs === undefined ? [] : ['b.made_ms < ?']),
  ]
  const sql = `
    select b.*, v.body as plan from ${driver.from}
    cross join batch b on b.id = ${driver.key}
    join plan_version v on v.plan_id = b.plan_id and v.version = b.plan_version
    where ${driver.where} ${driver.key} < ? ${conditions.map((c) => `and ${c}`).join(' ')}
    order by ${driver.key} desc limit ?`
  const params = [
    ...driver.params,
    before,
    ...rest.flatMap((facet) => [facet.kind, facet.value]),
    ...(query.fromMs === undefined ? [] : [query.fromMs]),
    ...(query.toMs === undefined ? [] : [query.toMs]),
    query.limit,
  ]
  return { sql, params }
}

const shadeSql = (additive: string | undefined): string => `
  select b.id, b.title, v.body as plan, e.body from ${
    additive === undefined
      ? `entry e indexed by entry_result cross join batch b on b.id = e.batch_id`
      : `batch_facet f cross join entry e on e.batch_id = f.batch_id cross join batch b on b.id = e.batch_id`
  }
  join plan_version v on v.plan_id = b.plan_id and v.version = b.plan_version
  where e.kind = 'result' and e.body ->> '$.lab' is not null
    and not exists (select 1 from entry r where r.replaces = e.id and r.id > e.id)
    ${additive === undefined ? '' : `and f.kind = 'additive' and f.value = ?`}
  order by ${additive === undefined ? 'e.id' : 'f.batch_id'} desc limit ?`

function toShade(row: ShadeRow, additive: string | undefined): Shade {
  const plan = JSON.parse(row.plan) as Plan
  const result = JSON.parse(row.body) as Result
  const found = plan.stages
    .flatMap((stage) => stage.additives)
    .find((a) => a.name.trim().toLowerCase() === additive && 'percentWof' in a)
  return {
    batchId: row.id,
    title: row.title,
    fibre: plan.fibre ?? null,
    lab: result.lab!,
    percentWof: found !== undefined && 'percentWof' in found ? found.percentWof : null,
  }
}
