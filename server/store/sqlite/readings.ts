import type Database from 'better-sqlite3'
import type { Reading, Serial } from '#core/measure/reading'
import type { AddedAs, NewReading, ReadingStore, TracePoint, TraceRange } from '../readings.ts'
import { MinuteExtremes } from './minute-extremes.ts'
import type { ProbeIds } from './probe-ids.ts'
import { codeWord, GOOD, type ReadingRow, toReading, toRow, verdictCode } from './reading-codes.ts'
import { SeenSerials } from './seen-serials.ts'
import { TraceQuery } from './trace-query.ts'

type InsertParams = [
  number,
  number,
  number,
  number | null,
  number | null,
  number,
  string | null,
  number | null,
]

export class SqliteReadings implements ReadingStore {
  readonly #db: Database.Database
  readonly #ids: ProbeIds
  readonly #seen: SeenSerials
  readonly #minutes: MinuteExtremes
  readonly #trace: TraceQuery
  readonly #insert: Database.Statement<InsertParams>
  /** Nearly every reading: believed as it came, at a time that has none yet. */
  readonly #insertGood: Database.Statement<[number, number, number]>
  readonly #sameTime: Database.Statement<[number, number], ReadingRow>
  readonly #between: Database.Statement<[number, number, number], ReadingRow>
  readonly #newest: Database.Statement<[number], ReadingRow>
  readonly #addAll: (readings: readonly NewReading[]) => AddedAs[]

  constructor(db: Database.Database, ids: ProbeIds) {
    this.#db = db
    this.#ids = ids
    this.#seen = new SeenSerials(db)
    this.#minutes = new MinuteExtremes(db)
    this.#trace = new TraceQuery(db)
    this.#insert = db.prepare('insert or ignore into reading values (?, ?, ?, ?, ?, ?, ?, ?)')
    this.#insertGood = db.prepare(
      `insert or ignore into reading values (?, ?, 0, ?, null, ${GOOD}, null, null)`,
    )
    this.#sameTime = db.prepare('select * from reading where probe_id = ? and at_ms = ? order by nth')
    this.#between = db.prepare('select * from reading where probe_id = ? and at_ms >= ? and at_ms < ?')
    this.#newest = db.prepare('select * from reading where probe_id = ? order by at_ms desc limit 1')
    const inOneCommit = db.transaction((readings: readonly NewReading[]) => {
      const added = readings.map((r) => this.#add(r))
      this.#seen.save()
      this.#minutes.save()
      return added
    })
    this.#addAll = (readings) => inOneCommit.immediate(readings)
  }

  async add(readings: readonly NewReading[]): Promise<readonly AddedAs[]> {
    try {
      return this.#addAll(readings)
    } catch (error) {
      this.#seen.forget()
      this.#minutes.forget()
      this.#ids.forget()
      throw error
    }
  }

  async between(range: TraceRange): Promise<readonly Reading[]> {
    const id = this.#ids.find(range.probe)
    if (id === undefined) return []
    return this.#between.all(id, range.fromMs, range.toMs).map((row) => toReading(range.probe, row))
  }

  async trace(range: TraceRange, points: number): Promise<readonly TracePoint[]> {
    const id = this.#ids.find(range.probe)
    return id === undefined ? [] : this.#trace.run(id, range.fromMs, range.toMs, points)
  }

  async newest(): Promise<readonly Reading[]> {
    const probes = this.#db.prepare<[], { id: number; name: string }>('select id, name from probe').all()
    return probes.flatMap(({ id, name }) => {
      const row = this.#newest.get(id)
      return row === undefined ? [] : [toReading(name, row)]
    })
  }

  async tally(range: TraceRange): Promise<Readonly<Record<string, number>>> {
    const id = this.#ids.find(range.probe)
    if (id === undefined) return {}
    const rows = this.#db
      .prepare<[number, number, number], { verdict: number; n: number }>(
        'select verdict, count(*) n from reading where probe_id = ? and at_ms >= ? and at_ms < ? group by verdict',
      )
      .all(id, range.fromMs, range.toMs)
    return Object.fromEntries(rows.map((row) => [codeWord(row.verdict), row.n]))
  }

  #add({ reading, serial, deviceMs }: NewReading): AddedAs {
    const id = this.#ids.findOrMake(reading.probe, reading.atMs)
    const known = serial ?? bySay(reading, deviceMs ?? null)
    if (known !== null && !this.#seen.mark(id, known.boot, known.seq)) return 'duplicate'
    const isGood = reading.kind === 'temp' && reading.verdict === 'good'
    const isBare = isGood && reading.tempC === reading.rawC && (deviceMs ?? null) === null
    const changes = isBare
      ? this.#insertGood.run(id, reading.atMs, reading.rawC).changes
      : this.#write(id, 0, toRow(reading, deviceMs ?? null))
    if (changes === 0) return this.#addSecond(id, toRow(reading, deviceMs ?? null), serial !== null)
    if (isGood) this.#minutes.add(id, reading.atMs, reading.tempC)
    return 'stored'
  }

  /** The time is taken: the same again, or another value that is kept apart. */
  #addSecond(id: number, row: ReadingRow, hasSerial: boolean): AddedAs {
    const same = this.#sameTime.all(id, row.at_ms)
    if (!hasSerial && same.some((other) => other.raw_c === row.raw_c && other.found === row.found))
      return 'duplicate'
    const verdict = row.raw_c === null ? row.verdict : verdictCode('second-value')
    this.#write(id, same.length, { ...row, verdict })
    return 'second-value'
  }

  #write(id: number, nth: number, row: ReadingRow): number {
    const { at_ms, raw_c, temp_c, verdict, found, device_ms } = row
    return this.#insert.run(id, at_ms, nth, raw_c, temp_c, verdict, found, device_ms).changes
  }
}

/** A reading whose device's clock is wrong has another time at each arrival; what the device itself said knows it again. */
function bySay(reading: Reading, deviceMs: number | null): Serial | null {
  if (deviceMs === null || deviceMs < 0 || !Number.isSafeInteger(deviceMs)) return null
  const value = reading.kind === 'temp' ? reading.rawC : reading.found
  return { boot: `its own clock, ${value}`, seq: deviceMs }
}
