import type { Cancel, Clock } from '#core/measure/clock'
import type { Outbox } from './outbox.ts'
import type { OutboxRow } from './outbox-rows.ts'

/** What became of one batch. */
export type SendResult =
  /** Committed, but for those that were refused, by their place in the batch. */
  | { readonly kind: 'taken'; readonly refused: ReadonlyMap<number, string> }
  /** The server could not read the batch as a whole, or it was too large: it is tried in smaller pieces. */
  | { readonly kind: 'unreadable'; readonly why: string }
  /** Not now: no server, too busy, key not accepted. `afterMs`: when the server asked to be tried again. */
  | { readonly kind: 'later'; readonly sentence: string; readonly afterMs: number | null }

export interface HandOverParts {
  readonly outbox: Outbox
  readonly clock: Clock
  random(): number
  send(rows: readonly OutboxRow[]): Promise<SendResult>
  /** What is wrong with the way to the server, or `null` when it is well. */
  onTrouble(sentence: string | null): void
}

/** One stream of rows in order of their ids, one batch under way at a time. */
interface Lane {
  afterId: number
  toId: number
  limit: number
  isBusy: boolean
}

const LIVE_ROWS = 500
const BACKLOG_ROWS = 1000
/** A reading this old is no longer live, ms: it goes with the backlog and newer ones go first. */
const LIVE_MS = 5000
const WAIT = { firstMs: 250, longestMs: 5000 } as const

/**
 * Hands readings to the server by two queues that keep their order: what was just read goes straight to the watch,
 * what had to wait follows as there is room. A row leaves the outbox only after the server has answered that it is committed.
 */
export class HandOver {
  readonly #parts: HandOverParts
  readonly #live: Lane
  readonly #backlog: Lane
  #attempt = 0
  #cancel: Cancel | null = null
  #isStopped = false
  readonly #under: Set<Promise<void>> = new Set()

  constructor(parts: HandOverParts) {
    this.#parts = parts
    const { topId } = parts.outbox
    this.#live = { afterId: topId, toId: Number.MAX_SAFE_INTEGER, limit: LIVE_ROWS, isBusy: false }
    this.#backlog = { afterId: 0, toId: topId, limit: BACKLOG_ROWS, isBusy: false }
    this.#cut()
  }

  /** There may be something to hand over. */
  wake(): void {
    if (this.#isStopped || this.#cancel !== null) return
    this.#pump(this.#live)
    this.#pump(this.#backlog)
  }

  /** Begins nothing new and waits for what is under way. */
  async stop(): Promise<void> {
    this.#isStopped = true
    this.#cancel?.()
    await Promise.all(this.#under)
  }

  #pump(lane: Lane): void {
    if (lane.isBusy || this.#isStopped || this.#cancel !== null) return
    const rows = oneRun(this.#parts.outbox.rows(lane.afterId, lane.toId, lane.limit))
    if (rows.length === 0) return
    if (lane === this.#live && this.#isBehind(rows)) {
      this.#cut()
      return this.wake()
    }
    lane.isBusy = true
    const work = this.#hand(lane, rows).finally(() => this.#under.delete(work))
    this.#under.add(work)
  }

  async #hand(lane: Lane, rows: readonly OutboxRow[]): Promise<void> {
    const result = await this.#parts.send(rows)
    lane.isBusy = false
    switch (result.kind) {
      case 'taken':
        return this.#taken(lane, rows, result.refused)
      case 'unreadable':
        return this.#unreadable(lane, rows, result.why)
      case 'later':
        return this.#later(result.sentence, result.afterMs)
      default:
        result satisfies never
    }
  }

  #taken(lane: Lane, rows: readonly OutboxRow[], refused: ReadonlyMap<number, string>): void {
    const byId = new Map(
      [...refused].flatMap(([i, why]) => (rows[i] === undefined ? [] : [[rows[i].id, why]])),
    )
    this.#parts.outbox.settle(rows, byId)
    lane.afterId = rows.at(-1)!.id
    lane.limit = Math.min(lane.limit * 2, lane === this.#live ? LIVE_ROWS : BACKLOG_ROWS)
    this.#attempt = 0
    this.#parts.onTrouble(null)
    this.wake()
  }

  /** Halves the batch until the one row that can't be read stands alone; it is put aside with the reason. */
  #unreadable(lane: Lane, rows: readonly OutboxRow[], why: string): void {
    if (rows.length === 1) return this.#taken(lane, rows, new Map([[0, why]]))
    lane.limit = Math.max(1, Math.floor(rows.length / 2))
    this.wake()
  }

  #later(sentence: string, afterMs: number | null): void {
    if (this.#isStopped) return
    this.#parts.onTrouble(sentence)
    if (this.#cancel !== null) return
    const fullMs = Math.min(WAIT.longestMs, WAIT.firstMs * 2 ** Math.min(this.#attempt++, 20))
    const waitMs = Math.max(afterMs ?? 0, fullMs / 2 + (fullMs / 2) * this.#parts.random())
    this.#cancel = this.#parts.clock.after(waitMs, () => {
      this.#cancel = null
      this.wake()
    })
  }

  #isBehind(rows: readonly OutboxRow[]): boolean {
    return this.#parts.clock.nowMs() - rows[0]!.sample.atMs > LIVE_MS
  }

  /** Draws the line between backlog and live anew: rows of the last seconds are live. */
  #cut(): void {
    const { outbox, clock } = this.#parts
    const newest = outbox.rows(Math.max(0, outbox.topId - LIVE_ROWS), outbox.topId, LIVE_ROWS)
    const firstLive = newest.find((r) => clock.nowMs() - r.sample.atMs <= LIVE_MS)
    const cutId = firstLive === undefined ? outbox.topId : firstLive.id - 1
    this.#live.afterId = cutId
    this.#backlog.toId = cutId
    if (!this.#backlog.isBusy) this.#backlog.afterId = 0
  }
}

/** A batch is of one run of the bridge: the server may judge its clock as a whole. */
const oneRun = (rows: readonly OutboxRow[]): readonly OutboxRow[] => {
  const end = rows.findIndex((r) => r.serial.boot !== rows[0]!.serial.boot)
  return end < 0 ? rows : rows.slice(0, end)
}
