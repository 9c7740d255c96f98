import { z } from 'zod'
import { entryAnswer, newEntry } from '#core/wire/api-batches'
import { idText } from '#core/wire/api-fields'
import { decodeRecordLine } from '#core/wire/record-line'
import { isOfBath } from '#core/batch/shared-bath'
import { RECORD_KINDS } from '#core/wire/record-line-schema'
import { endpoint, type Endpoint } from '../http/endpoint.ts'
import { Problem } from '../http/problem.ts'
import { entriesOf } from '../../report/lots-of-bath.ts'
import { bathId, type StoredBatch } from '../../store/batches.ts'
import type { StoveKeeper } from '../stove-keeper.ts'
import type { Studio } from '../studio.ts'

const params = z.strictObject({ id: idText })

/** The lines of a batch's record: added, never overwritten. What is noted of a bath holds for every lot in it. */
export const entryRoutes = (studio: Studio, keeper: StoveKeeper): readonly Endpoint[] => [
  endpoint({
    method: 'get',
    path: '/api/batches/:id/entries',
    summary: 'The record of a batch line by line, replaced ones too',
    params,
    answer: z.array(entryAnswer),
    handle: async ({ params: { id } }) => {
      return entriesOf(studio.store, await keeper.batch(id))
    },
  }),
  endpoint({
    method: 'post',
    path: '/api/batches/:id/entries',
    summary: 'Adds a line to the record: a weighing, a pH, a note, a result; it may replace an earlier one',
    params,
    body: newEntry,
    answer: entryAnswer,
    status: 201,
    handle: async ({ params: { id }, body }) => {
      const batch = await keeper.batch(id)
      refuseOddLine(body)
      const replaced = (await entriesOf(studio.store, batch)).find((e) => e.id === body.replaces)
      if (body.replaces !== null && replaced === undefined)
        throw new Problem(400, `replaces is ${body.replaces}; allowed is the id of a line of this batch`)
      const notedMs = studio.clock.nowMs()
      const { kind, who, replaces } = body
      const batchId = replaced?.batchId ?? (isOfBath(kind) ? bathId(batch) : id)
      const entry = { batchId, atMs: body.atMs ?? notedMs, notedMs, who, kind, body: body.body, replaces }
      const added = await studio.recorder.write(() => studio.store.entries.add(entry))
      if (kind === 'water' || kind === 'withdrawn') learnAgain(studio, batch)
      return added
    },
  }),
]

/** The water that a pot held decides what its trace says of the burner. */
function learnAgain({ burners }: Studio, batch: StoredBatch): void {
  for (const potId of new Set(batch.stages.map((run) => run.potId))) burners.learnSoon(potId)
}

/** Lines of the kinds that the record knows have fields of their own; other kinds are kept as they come. */
function refuseOddLine({ kind, body, replaces }: z.output<typeof newEntry>): void {
  if (!RECORD_KINDS.some((known) => known === kind)) return
  const decoded = decodeRecordLine({ kind, body, ...(replaces === null ? {} : { replaces }) })
  if (!decoded.ok) throw new Problem(400, decoded.why)
}
