import { bathId } from '../../store/batches.ts'
import type { Entry } from '../../store/entries.ts'
import type { StageOutcome } from '#core/plan/outcome'
import type { BatchRecord, StageRun } from '#core/wire/records'
import { alarmRecord } from '../../store/alarms.ts'
import { entriesOf, lotsOf } from '../../report/lots-of-bath.ts'
import { notFound } from '../http/problem.ts'
import type { Studio } from '../studio.ts'

/** A batch with everything that belongs to it; of a running stage what it has come to by now. */
export async function wholeBatch(
  studio: Pick<Studio, 'store'> & Partial<Pick<Studio, 'watching'>>,
  id: number,
): Promise<BatchRecord & { readonly entries: readonly Entry[] }> {
  const { store, watching } = studio
  const batch = await store.batches.get(id)
  if (batch === null) throw notFound(`batch ${id}`)
  const stages = batch.stages.map((run) => {
    if (run.endedMs !== null || watching === undefined) return run
    const outcome = watching.outcomes(run.potId).findLast((o) => isOf(o, run)) ?? run.outcome
    return Object.assign({}, run, { outcome })
  })
  const alarms = await store.alarms.list({ batchId: bathId(batch), limit: 1000 })
  return {
    ...batch,
    stages,
    events: await store.events.ofBatch(bathId(batch)),
    alarms: alarms.map(alarmRecord).toReversed(),
    entries: await entriesOf(store, batch),
    lots: batch.lots.length === 0 ? [] : await lotsOf(store, batch),
  }
}

/** The same stage, begun at the same moment: an earlier batch in this pot may have had a stage of that name. */
const isOf = (outcome: StageOutcome, run: StageRun): boolean =>
  outcome.id === run.stageId && Math.abs(outcome.startedMs - run.startedMs) < 1500
