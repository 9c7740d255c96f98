import type { Clock } from '#core/measure/clock'
import type { StoredBatch } from '../store/batches.ts'
import { Problem } from './http/problem.ts'

/** A time that a person types may be this far ahead of the server's clock, ms. */
const AHEAD_MS = 5000

/** When something was done, Unix ms: now where no time was typed, and never ahead. */
export function timeNoted(clock: Clock, atMs: number | undefined): number {
  const nowMs = clock.nowMs()
  if (atMs === undefined) return nowMs
  if (atMs > nowMs + AHEAD_MS)
    throw new Problem(400, `the time ${new Date(atMs).toISOString()} lies ahead; allowed is now or earlier`)
  return Math.min(atMs, nowMs)
}

/** A stage begins after the one before it. */
export function refuseBeforeRunning(batch: StoredBatch, startedMs: number): void {
  const last = batch.stages.at(-1)
  if (last === undefined || startedMs >= last.startedMs) return
  throw new Problem(
    409,
    `stage "${last.stageId}" began after that time; a stage begins after the one before it`,
  )
}
