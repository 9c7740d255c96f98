import type { BathEvent } from '../plan/event.ts'

/** One moment of a recorded trace: what was noted, then what was read. */
export interface TraceMoment {
  readonly atMs: number
  readonly events: readonly BathEvent[]
  /** As recorded, °C; `null` when nothing was. */
  readonly tempC: number | null
  /** What stood in the cell when that was no number. */
  readonly found: string | null
}

/** A trace as the watch takes it: in time order, each time once. */
export interface Trace {
  readonly moments: readonly TraceMoment[]
  /** Cells that were no number, and second values for a time that had one. */
  readonly rejected: number
  readonly duplicates: number
}
