import type Database from 'better-sqlite3'
import type { Cancel, Clock } from '#core/measure/clock'
import type { Sample } from '#core/measure/reading'
import { openOutboxFile } from './outbox-file.ts'
import { OutboxNotes } from './outbox-notes.ts'
import { type OutboxRow, outboxStatements } from './outbox-rows.ts'

export interface OutboxParts {
  readonly file: string
  readonly clock: Clock
  /** Names this run of the bridge; with a probe's counter it identifies a reading for good. */
  readonly boot: string
  /** Rows became visible to the hand-over. */
  readonly onReady: () => void
  /** Something to be said loudly: one sentence. */
  readonly onTrouble: (sentence: string) => void
}

export interface OutboxCounts {
  readonly waiting: number
  readonly oldestWaitingMs: number | null
  readonly refused: number
  readonly trouble: string | null
}

/** Between two commits lie at least four times the length of the last one, so that a slow card is not worn out, ms. */
const REST = { factor: 4, leastMs: 1, mostMs: 250 } as const
/** Rows that the server has are taken off with the next commit, or after this long, ms. */
const TIDY_MS = 1000
/** After the disk refused a commit it is tried again this often, ms. */
const RETRY_MS = 1000
/** While the disk refuses, at most this many rows are held in memory: 7 h of eight probes at 1 Hz. */
const MEMORY_ROWS = 200_000

/**
 * Where readings wait until the server has them: on disk before anything else. Commits are grouped; rows that the
 * disk would not take are held in memory, handed over from there, and written as soon as it takes them again.
 */
export class Outbox {
  /** Small things kept in the same file. */
  readonly notes: OutboxNotes
  readonly #parts: OutboxParts
  readonly #db: Database.Database
  readonly #sql: ReturnType<typeof outboxStatements>
  readonly #seqs = new Map<string, number>()
  /** Not on disk yet, in order. */
  #fresh: OutboxRow[] = []
  #settled = new Map<number, string | null>()
  #topId: number
  #waiting: number
  #refused: number
  #cancel: Cancel | null = null
  #isDue = false
  #restUntilMs = 0
  #trouble: string | null = null
  #isClosed = false

  constructor(parts: OutboxParts) {
    this.#parts = parts
    this.#db = openOutboxFile(parts.file, parts.onTrouble)
    this.#sql = outboxStatements(this.#db)
    this.notes = new OutboxNotes(this.#db, parts.boot, (error) => this.#diskRefused(error))
    const { waiting, refused } = this.#sql.counts()
    this.#topId = Math.max(waiting.top ?? 0, refused.top ?? 0)
    this.#waiting = waiting.n
    this.#refused = refused.n
  }

  get topId(): number {
    return this.#topId
  }

  /** Takes a sample in. It is on disk within the rest between two commits, at once as a rule. */
  put(sample: Sample): void {
    const seq = this.#seqs.get(sample.probe) ?? 0
    this.#seqs.set(sample.probe, seq + 1)
    this.#fresh.push({ id: ++this.#topId, sample, serial: { boot: this.#parts.boot, seq } })
    this.#waiting++
    this.#dropBeyondMemory()
    this.#commitSoon()
  }

  /** Rows with `afterId` < id ≤ `toId` that the server has not yet, in order, at most `limit`. */
  rows(afterId: number, toId: number, limit: number): readonly OutboxRow[] {
    const found: OutboxRow[] = []
    for (let fromId = afterId; found.length < limit;) {
      const stored = this.#sql.between(fromId, toId, limit)
      found.push(...stored.filter((r) => !this.#settled.has(r.id)))
      if (stored.length < limit) break
      fromId = stored.at(-1)!.id
    }
    if (this.#trouble !== null) {
      found.push(...this.#fresh.filter((r) => r.id > afterId && r.id <= toId && !this.#settled.has(r.id)))
    }
    return found.slice(0, limit)
  }

  /** The server has these; `refused` gives the reason for those that it would not take. */
  settle(rows: readonly OutboxRow[], refused: ReadonlyMap<number, string> = new Map()): void {
    const inMemory = new Set(this.#fresh.map((r) => r.id))
    for (const { id } of rows) {
      const why = refused.get(id) ?? null
      if (why !== null) this.#refused++
      this.#waiting--
      if (!inMemory.has(id) || why !== null) this.#settled.set(id, why)
    }
    if (inMemory.size > 0) {
      const done = new Set(rows.filter((r) => !refused.has(r.id)).map((r) => r.id))
      this.#fresh = this.#fresh.filter((r) => !done.has(r.id))
    }
    if (this.#settled.size > 0 && this.#cancel === null) this.#commitAfter(TIDY_MS)
  }

  counts(): OutboxCounts {
    const oldestWaitingMs = this.#waiting === 0 ? null : this.#oldestMs()
    return { waiting: this.#waiting, oldestWaitingMs, refused: this.#refused, trouble: this.#trouble }
  }

  /** Writes what waits to be written, and takes off what the server has. */
  commit(): void {
    this.#cancel?.()
    this.#cancel = null
    this.#isDue = false
    if (this.#isClosed) return
    const startMs = this.#parts.clock.nowMs()
    try {
      this.#write()
    } catch (error) {
      return this.#diskRefused(error)
    }
    this.#trouble = null
    const tookMs = this.#parts.clock.nowMs() - startMs
    this.#restUntilMs = startMs + tookMs + Math.min(REST.mostMs, Math.max(REST.leastMs, REST.factor * tookMs))
    this.#parts.onReady()
  }

  close(): void {
    this.commit()
    this.#isClosed = true
    this.#cancel?.()
    this.#db.close()
  }

  #write(): void {
    if (this.#fresh.length === 0 && this.#settled.size === 0) return
    this.#db.transaction(() => {
      for (const row of this.#fresh) this.#sql.insert(row)
      for (const [id, why] of this.#settled) {
        if (why !== null) this.#sql.refuse(id, why)
        this.#sql.remove(id)
      }
    })()
    this.#fresh = []
    this.#settled.clear()
  }

  #diskRefused(error: unknown): void {
    const why = error instanceof Error ? error.message : String(error)
    const sentence =
      `the outbox ${this.#parts.file} can't be written (${why.slice(0, 100)}); is the disk full? Readings go on from ` +
      `memory and would be lost if the bridge stopped now: free some space`
    if (this.#trouble !== sentence) this.#parts.onTrouble(sentence)
    this.#trouble = sentence
    this.#commitAfter(RETRY_MS)
    this.#parts.onReady()
  }

  #commitSoon(): void {
    if (this.#trouble !== null) return this.#parts.onReady()
    if (this.#isDue) return
    this.#isDue = true
    const restMs = this.#restUntilMs - this.#parts.clock.nowMs()
    // A microtask gathers all lines of one chunk into one commit without waiting.
    if (restMs <= 0) queueMicrotask(() => this.#isDue && this.commit())
    else this.#commitAfter(restMs)
  }

  #commitAfter(delayMs: number): void {
    this.#cancel?.()
    this.#cancel = this.#parts.clock.after(delayMs, () => this.commit())
  }

  #dropBeyondMemory(): void {
    if (this.#fresh.length <= MEMORY_ROWS) return
    this.#fresh.shift()
    this.#waiting--
    this.#parts.onTrouble(
      `the memory for readings is full as well as the disk; the oldest of them are being lost`,
    )
  }

  #oldestMs(): number | null {
    const first = this.#sql.between(0, this.#topId, 2000).find((r) => !this.#settled.has(r.id))
    return (first ?? this.#fresh[0])?.sample.atMs ?? null
  }
}
