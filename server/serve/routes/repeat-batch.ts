import { currentRecord } from '#core/batch/current-record'
import { bathDryG } from '#core/batch/shared-bath'
import { type RepeatedShade, repeatShade } from '#core/batch/scale-plan'
import { recordLineOf } from '#core/wire/record-line'
import { entriesOf, lotsOf } from '../../report/lots-of-bath.ts'
import type { StoredBatch } from '../../store/batches.ts'
import { Problem } from '../http/problem.ts'
import type { Studio } from '../studio.ts'

/** Saves a plan that repeats a batch's shade as it was weighed, and a batch of the new weight on it. */
export async function repeatBatch(
  { store, clock, recorder }: Studio,
  batch: StoredBatch,
  ask: { readonly title: string; readonly dryWeightG: number },
): Promise<{ readonly batchId: number; readonly planId: number; readonly needs: RepeatedShade['needs'] }> {
  const entries = await entriesOf(store, batch)
  const record = currentRecord(entries.map(recordLineOf).filter((line) => line !== null))
  const dryWeightG = bathDryG(await lotsOf(store, batch))
  if (dryWeightG === null)
    throw new Problem(409, `batch ${batch.id} has no dry weight, so that nothing can be scaled from it`)
  const weighed = record.weighings.map(({ body }) => body)
  const { plan, needs } = repeatShade({ plan: batch.plan, dryWeightG, weighed }, ask.dryWeightG)
  const madeMs = clock.nowMs()
  return recorder.write(async () => {
    const saved = await store.plans.add({ ...plan, title: ask.title }, madeMs)
    const made = await store.batches.add({ ...ask, planId: saved.id, planVersion: saved.version, madeMs })
    const line = { batchId: made.id, atMs: madeMs, notedMs: madeMs, who: null, replaces: null }
    const text = `Repeats batch ${batch.id}, ${batch.title}`
    await store.entries.add({ ...line, kind: 'note', body: { text } })
    // What it is to match: the page leads from here to what differs today, and later to the colour difference.
    await store.entries.add({ ...line, kind: 'result', body: { referenceBatchId: batch.id } })
    return { batchId: made.id, planId: saved.id, needs }
  })
}
