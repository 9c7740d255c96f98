import { z } from 'zod'
import { checklist } from '#core/batch/checklist'
import { correctionsOf } from '#core/batch/corrections'
import { currentRecord } from '#core/batch/current-record'
import { differsToday } from '#core/batch/differs-today'
import { factsOfBatch } from '#core/batch/facts-of-batch'
import { STARTING_POINTS } from '#core/plan/starting-points'
import { idText } from '#core/wire/api-fields'
import { costAnswer, differsQuery, needsQuery, repeatAsk, traceImport } from '#core/wire/api-record'
import { ownCorrections } from '#core/batch/own-corrections'
import { recordLineOf } from '#core/wire/record-line'
import { endpoint, type Endpoint } from '../http/endpoint.ts'
import { entriesOf } from '../../report/lots-of-bath.ts'
import type { StoveKeeper } from '../stove-keeper.ts'
import type { Studio } from '../studio.ts'
import { TRACE_IMPORT } from '../http/media-type.ts'
import { costOfBatch } from './batch-cost.ts'
import { batchNeeds } from './batch-needs.ts'
import { importTrace } from './import-trace.ts'
import { differenceAnswer } from './look-up.ts'
import { ranBatch } from './ran-batch.ts'
import { repeatBatch } from './repeat-batch.ts'
import { wholeBatch } from './whole-batch.ts'

const params = z.strictObject({ id: idText })
const loose = z.looseObject({})

/** The record of a batch as it stands, what it needs, what to do now, and making it again. */
export const recordRoutes = (studio: Studio, keeper: StoveKeeper): readonly Endpoint[] => [
  endpoint({
    method: 'get',
    path: '/api/starting-points',
    summary: 'Plans to start from; every value is common practice and meant to be changed',
    answer: z.array(z.object({ id: z.string(), title: z.string(), fibre: z.string(), plan: loose })),
    handle: () => Promise.resolve(STARTING_POINTS),
  }),
  endpoint({
    method: 'get',
    path: '/api/batches/:id/record',
    summary: 'The record as it stands, and what was corrected in it',
    params,
    answer: z.object({ record: loose, corrections: z.array(loose) }),
    handle: async ({ params: { id } }) => {
      const entries = await entriesOf(studio.store, await keeper.batch(id))
      const lines = entries.map(recordLineOf).filter((line) => line !== null)
      const corrections = [...correctionsOf(lines), ...entries.flatMap(ownCorrections)]
      return { record: currentRecord(lines), corrections: corrections.sort((a, b) => a.notedMs - b.notedMs) }
    },
  }),
  endpoint({
    method: 'get',
    path: '/api/batches/:id/needs',
    summary:
      'Grams and litres of each stage as a scale can show them, beside what was weighed and what is in stock',
    params,
    query: needsQuery,
    answer: z.object({ stages: z.array(loose), shortages: z.array(loose) }),
    handle: async ({ params: { id }, query }) => batchNeeds(studio, await keeper.batch(id), query),
  }),
  endpoint({
    method: 'get',
    path: '/api/batches/:id/cost',
    summary: 'What a batch cost; energy that nobody typed is reckoned from the burner',
    params,
    answer: costAnswer,
    handle: async ({ params: { id } }) => costOfBatch(studio, await keeper.batch(id)),
  }),
  endpoint({
    method: 'get',
    path: '/api/batches/:id/checklist',
    summary: 'What now, how long yet, what next',
    params,
    answer: loose,
    handle: async ({ params: { id } }) => {
      const batch = await wholeBatch(studio, id)
      const runs = batch.stages.map((run) => ({
        stageId: run.stageId,
        startedMs: run.startedMs,
        endedMs: run.endedMs,
        bins: run.outcome?.bins ?? null,
      }))
      const events = batch.events.filter((event) => (event.struckMs ?? null) === null)
      const running = batch.stages.findLast((run) => run.endedMs === null)
      const forecast = running === undefined ? null : studio.watching.numbers(running.potId).forecast
      const coolsToMs = forecast?.reachesCoolToMs ?? null
      return checklist({ plan: batch.plan, runs, events, nowMs: studio.clock.nowMs(), coolsToMs })
    },
  }),
  endpoint({
    method: 'post',
    path: '/api/batches/:id/repeat',
    summary: 'Repeats a shade: a plan and a batch for another weight, as it was weighed',
    params,
    body: repeatAsk,
    answer: z.object({ batchId: z.number(), planId: z.number(), needs: z.array(loose) }),
    status: 201,
    handle: async ({ params: { id }, body }) => repeatBatch(studio, await keeper.batch(id), body),
  }),
  endpoint({
    method: 'get',
    path: '/api/batches/:id/differs',
    summary: 'What differs today from the batch `from` whose shade is to be repeated, before the heat is on',
    params,
    query: differsQuery,
    answer: z.object({
      differences: z.array(differenceAnswer),
      testPieceFirst: z.boolean(),
      trueMeanC: z.number().nullable(),
    }),
    handle: async ({ params: { id }, query: { from } }) => {
      const [then, today] = await Promise.all([ranBatch(studio, from), ranBatch(studio, id)])
      return differsToday(factsOfBatch(then.ran), factsOfBatch(today.ran))
    },
  }),
  endpoint({
    method: 'post',
    path: TRACE_IMPORT,
    summary: 'Takes a trace file from any logger into a batch that has not run yet',
    body: traceImport,
    answer: z.object({
      readings: z.number(),
      rejected: z.number(),
      duplicates: z.number(),
      stages: z.number(),
    }),
    status: 201,
    handle: async ({ body: { batchId, csv } }) => importTrace(studio, await keeper.bath(batchId), csv),
  }),
]
