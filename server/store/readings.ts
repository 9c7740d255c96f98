import type { Reading, Serial } from '#core/measure/reading'

/** A judged reading on its way to the disk; `serial` is its identity where the sender has one. */
export interface NewReading {
  readonly reading: Reading
  readonly serial: Serial | null
  /** What the device's own clock said, where it was not used as the time; kept as a note. */
  readonly deviceMs?: number | null
}

/** `second-value`: another value for a time that already has one; kept apart and flagged. */
export type AddedAs = 'stored' | 'second-value' | 'duplicate'

/** A stretch of one probe's time, Unix ms UTC; `toMs` is not included. */
export interface TraceRange {
  readonly probe: string
  readonly fromMs: number
  readonly toMs: number
}

/** Corrected °C at a time. */
export type TracePoint = readonly [atMs: number, tempC: number]

export interface ReadingStore {
  /**
   * Stores all in one commit; the answer has one word for each, in the same order. A reading with a serial is
   * known by (probe, boot, seq), one without by (probe, time, value): sent twice, it is stored once.
   */
  add(readings: readonly NewReading[]): Promise<readonly AddedAs[]>
  /** Every stored reading of the stretch, whatever its verdict, by time. */
  between(range: TraceRange): Promise<readonly Reading[]>
  /**
   * The believed readings of the stretch, by time: all of them when there are at most `points` (≥ 2), else the
   * lowest and the highest of each of `points / 2` equal slots, each at its own time.
   */
  trace(range: TraceRange, points: number): Promise<readonly TracePoint[]>
  /** The newest reading of each probe that ever had one. */
  newest(): Promise<readonly Reading[]>
  /** How many of each verdict or fault a probe has in the stretch, for the probe's page. */
  tally(range: TraceRange): Promise<Readonly<Record<string, number>>>
}
