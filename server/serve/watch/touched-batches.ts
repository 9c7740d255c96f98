import type { Store } from '../../store/store.ts'
import type { LateStretch } from './late-readings.ts'

/** A batch that readings came late for, and the time from the first to the last of them. */
export interface TouchedBatch {
  readonly batchId: number
  /** One of the stages that they belong to still runs. */
  readonly isRunning: boolean
  readonly fromMs: number
  readonly toMs: number
}

export async function touchedBatches(
  { batches }: Store,
  stretches: readonly LateStretch[],
): Promise<readonly TouchedBatch[]> {
  const touched = new Map<number, TouchedBatch>()
  for (const { probe, fromMs, toMs } of stretches)
    for (const { batchId, endedMs } of await batches.runsOn(probe, fromMs, toMs)) {
      const known = touched.get(batchId)
      touched.set(batchId, {
        batchId,
        isRunning: known?.isRunning === true || endedMs === null,
        fromMs: Math.min(fromMs, known?.fromMs ?? fromMs),
        toMs: Math.max(toMs, known?.toMs ?? toMs),
      })
    }
  return [...touched.values()]
}
