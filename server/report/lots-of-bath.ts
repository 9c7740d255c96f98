import { currentRecord } from '#core/batch/current-record'
import { isOfBath } from '#core/batch/shared-bath'
import { recordLineOf } from '#core/wire/record-line'
import type { BathLot } from '#core/wire/records'
import type { StoredBatch } from '../store/batches.ts'
import type { Entry } from '../store/entries.ts'
import type { Store } from '../store/store.ts'

/** A batch's lines; for a lot in another batch's bath also what was written down of that bath. In order of time. */
export async function entriesOf(
  { entries }: Pick<Store, 'entries'>,
  batch: Pick<StoredBatch, 'id' | 'bathOf'>,
): Promise<readonly Entry[]> {
  const own = await entries.ofBatch(batch.id)
  if (batch.bathOf === null) return own
  const bath = await entries.ofBatch(batch.bathOf)
  const shared = new Set(bath.filter(({ kind }) => isOfBath(kind)).map(({ id }) => id))
  const isShared = (entry: Entry) => shared.has(entry.id) || shared.has(entry.replaces ?? 0)
  return [...bath.filter(isShared), ...own].sort((a, b) => a.atMs - b.atMs || a.id - b.id)
}

/** The lots of a batch's bath with their dry weights as their records have them; at least the batch itself. */
export async function lotsOf(
  store: Pick<Store, 'entries'>,
  batch: Pick<StoredBatch, 'id' | 'title' | 'dryWeightG' | 'lots'>,
): Promise<readonly BathLot[]> {
  const { id, title, dryWeightG } = batch
  const lots = batch.lots.length === 0 ? [{ id, title, dryWeightG }] : batch.lots
  return Promise.all(
    lots.map(async (lot) => {
      const lines = (await store.entries.ofBatch(lot.id)).map(recordLineOf)
      const { goods } = currentRecord(lines.filter((line) => line !== null))
      return Object.assign({}, lot, { dryWeightG: goods.dryWeightG ?? lot.dryWeightG })
    }),
  )
}
