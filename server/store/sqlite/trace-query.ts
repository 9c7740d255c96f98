import type Database from 'better-sqlite3'
import type { TracePoint } from '../readings.ts'
import { MINUTE_MS } from './minute-extremes.ts'
import { GOOD } from './reading-codes.ts'
import { SlotExtremes } from './slot-extremes.ts'

type Row = [atMs: number, tempC: number]
type MinuteRow = [lowMs: number, lowC: number, highMs: number, highC: number]

/** From this slot length on, the minutes' extremes stand for the seconds between. */
const MINUTES_FROM_MS = MINUTE_MS

/** One probe's believed readings of a stretch, thinned to the lowest and highest of each slot. */
export class TraceQuery {
  readonly #readings: Database.Statement<[number, number, number, number], Row>
  readonly #minutes: Database.Statement<[number, number, number], MinuteRow>

  constructor(db: Database.Database) {
    this.#readings = db
      .prepare<[number, number, number, number], Row>(
        `select at_ms, coalesce(temp_c, raw_c) from reading
         where probe_id = ? and at_ms >= ? and at_ms < ? and verdict = ${GOOD} limit ?`,
      )
      .raw()
    this.#minutes = db
      .prepare<[number, number, number], MinuteRow>(
        'select low_ms, low_c, high_ms, high_c from minute where probe_id = ? and minute >= ? and minute < ?',
      )
      .raw()
  }

  run(probeId: number, fromMs: number, toMs: number, points: number): readonly TracePoint[] {
    const first = this.#readings.all(probeId, fromMs, toMs, points + 1)
    if (first.length <= points) return first
    const slots = Math.max(1, Math.floor(points / 2))
    const slotMs = Math.ceil((toMs - first[0]![0]) / slots)
    if (slotMs < MINUTES_FROM_MS) return this.#bySeconds(probeId, first[0]![0], toMs, slotMs)
    return this.#byMinutes(probeId, first[0]![0], toMs, slots)
  }

  #bySeconds(probeId: number, fromMs: number, toMs: number, slotMs: number): readonly TracePoint[] {
    const extremes = new SlotExtremes(fromMs, slotMs)
    this.#addReadings(extremes, probeId, fromMs, toMs)
    return extremes.points()
  }

  /** Slots of whole minutes on the minute; the broken minutes at both ends are read reading by reading. */
  #byMinutes(probeId: number, fromMs: number, toMs: number, slots: number): readonly TracePoint[] {
    const firstMinute = Math.ceil(fromMs / MINUTE_MS)
    const endMinute = Math.floor(toMs / MINUTE_MS)
    const startMinute = Math.floor(fromMs / MINUTE_MS)
    const slotMin = Math.ceil((Math.ceil(toMs / MINUTE_MS) - startMinute) / slots)
    const extremes = new SlotExtremes(startMinute * MINUTE_MS, slotMin * MINUTE_MS)
    this.#addReadings(extremes, probeId, fromMs, firstMinute * MINUTE_MS)
    for (const [lowMs, lowC, highMs, highC] of this.#minutes.iterate(probeId, firstMinute, endMinute)) {
      extremes.add(lowMs, lowC)
      extremes.add(highMs, highC)
    }
    this.#addReadings(extremes, probeId, endMinute * MINUTE_MS, toMs)
    return extremes.points()
  }

  #addReadings(extremes: SlotExtremes, probeId: number, fromMs: number, toMs: number): void {
    for (const [atMs, tempC] of this.#readings.iterate(probeId, fromMs, toMs, -1)) extremes.add(atMs, tempC)
  }
}
