import type Database from 'better-sqlite3'
import type { ProbeFault, Sample, Serial } from '#core/measure/reading'

/** A sample on its way to the server. Ids rise in the order of arrival, over all boots. */
export interface OutboxRow {
  readonly id: number
  readonly sample: Sample
  readonly serial: Serial
}

interface Stored {
  readonly id: number
  readonly probe: string
  readonly boot: string
  readonly seq: number
  readonly at_ms: number
  readonly raw_c: number | null
  readonly fault: string | null
  readonly found: string | null
}

/** The statements on the outbox's file, made ready once. */
export function outboxStatements(db: Database.Database) {
  const columns = 'id, probe, boot, seq, at_ms, raw_c, fault, found'
  const insert = db.prepare(`INSERT INTO waiting (${columns}) VALUES (?, ?, ?, ?, ?, ?, ?, ?)`)
  const refuse = db.prepare(
    `INSERT OR IGNORE INTO refused (${columns}, why) SELECT ${columns}, ? FROM waiting WHERE id = ?`,
  )
  const remove = db.prepare('DELETE FROM waiting WHERE id = ?')
  const between = db.prepare<[number, number, number], Stored>(
    `SELECT ${columns} FROM waiting WHERE id > ? AND id <= ? ORDER BY id LIMIT ?`,
  )
  const count = db.prepare<[], { n: number; top: number | null }>(
    'SELECT count(*) AS n, max(id) AS top FROM waiting',
  )
  const refusedTop = db.prepare<[], { n: number; top: number | null }>(
    'SELECT count(*) AS n, max(id) AS top FROM refused',
  )
  return {
    insert: (row: OutboxRow) => insert.run(...storedOf(row)),
    refuse: (id: number, why: string) => refuse.run(why, id),
    remove: (id: number) => remove.run(id),
    between: (afterId: number, toId: number, limit: number) => between.all(afterId, toId, limit).map(rowOf),
    counts: () => ({ waiting: count.get()!, refused: refusedTop.get()! }),
  }
}

function storedOf({ id, sample, serial }: OutboxRow) {
  const { probe, atMs } = sample
  const head = [id, probe, serial.boot, serial.seq, atMs] as const
  return sample.kind === 'temp'
    ? ([...head, sample.rawC, null, null] as const)
    : ([...head, null, sample.fault, sample.found] as const)
}

function rowOf(r: Stored): OutboxRow {
  const serial = { boot: r.boot, seq: r.seq }
  const sample: Sample =
    r.fault === null
      ? { kind: 'temp', probe: r.probe, atMs: r.at_ms, rawC: r.raw_c! }
      : { kind: 'fault', probe: r.probe, atMs: r.at_ms, fault: r.fault as ProbeFault, found: r.found ?? '' }
  return { id: r.id, sample, serial }
}
