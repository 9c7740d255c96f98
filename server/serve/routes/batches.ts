import { z } from 'zod'
import { parseEvent } from '#core/plan/event'
import {
  batchAnswer,
  batchEnd,
  batchSummaryAnswer,
  changedBatch,
  newBatch,
  newEvent,
  newBathLot,
  stageRunAnswer,
  stageStart,
} from '#core/wire/api-batches'
import { countText, eventAnswer, idText } from '#core/wire/api-fields'
import { endpoint, type Endpoint } from '../http/endpoint.ts'
import { notFound, Problem } from '../http/problem.ts'
import { bathId } from '../../store/batches.ts'
import type { StoveKeeper } from '../stove-keeper.ts'
import type { Studio } from '../studio.ts'
import { wholeBatch } from './whole-batch.ts'

const params = z.strictObject({ id: idText })

/** Batches: made from a plan, run stage by stage, read back whole. */
export const batchRoutes = (studio: Studio, keeper: StoveKeeper): readonly Endpoint[] => [
  endpoint({
    method: 'get',
    path: '/api/batches',
    summary: 'Batches, newest first, a page at a time',
    query: z.strictObject({
      limit: countText(1000, 200),
      before: idText.optional(),
      state: z.enum(['planned', 'running', 'ended']).optional(),
    }),
    answer: z.array(batchSummaryAnswer),
    handle: ({ query: { limit, before, state } }) =>
      studio.store.batches.list({
        limit,
        ...(before === undefined ? {} : { beforeId: before }),
        ...(state === undefined ? {} : { state }),
      }),
  }),
  endpoint({
    method: 'post',
    path: '/api/batches',
    summary: 'Makes a batch from a plan',
    body: newBatch,
    answer: batchAnswer,
    status: 201,
    handle: async ({ body }) => {
      const plan = await studio.store.plans.get(body.planId, body.planVersion)
      if (plan === null)
        throw notFound(`plan ${body.planId}${body.planVersion ? ` version ${body.planVersion}` : ''}`)
      const batch = { ...body, planVersion: plan.version, madeMs: studio.clock.nowMs() }
      const { id } = await studio.recorder.write(() => studio.store.batches.add(batch))
      return wholeBatch(studio, id)
    },
  }),
  endpoint({
    method: 'post',
    path: '/api/batches/:id/lots',
    summary:
      'Puts another lot into the bath of a batch: a batch of its own with its goods, on the same trace',
    params,
    body: newBathLot,
    answer: batchAnswer,
    status: 201,
    handle: async ({ params: { id }, body: { title, dryWeightG } }) => {
      const bath = await keeper.bath(id)
      const { planId, planVersion } = bath
      const lot = { title, dryWeightG, planId, planVersion, madeMs: studio.clock.nowMs(), bathOf: bath.id }
      const made = await studio.recorder.write(() => studio.store.batches.add(lot))
      return wholeBatch(studio, made.id)
    },
  }),
  endpoint({
    method: 'get',
    path: '/api/batches/:id',
    summary: 'A batch with its plan, stages, events, alarms and record',
    params,
    answer: batchAnswer,
    handle: ({ params: { id } }) => wholeBatch(studio, id),
  }),
  endpoint({
    method: 'put',
    path: '/api/batches/:id',
    summary: 'Corrects title or dry weight; what stood there before stays on record',
    params,
    body: changedBatch,
    answer: batchAnswer,
    handle: async ({ params: { id }, body }) => {
      const { title, dryWeightG } = await keeper.batch(id)
      const to = {
        title: body.title ?? title,
        dryWeightG: body.dryWeightG === undefined ? dryWeightG : body.dryWeightG,
      }
      const nowMs = studio.clock.nowMs()
      const correction = { from: { title, dryWeightG }, to }
      await studio.recorder.write(async () => {
        await studio.store.entries.add({
          batchId: id,
          atMs: nowMs,
          notedMs: nowMs,
          who: body.who,
          kind: 'correction',
          body: correction,
          replaces: null,
        })
        await studio.store.batches.change(id, to)
      })
      await studio.stove.refresh()
      studio.showStove()
      return wholeBatch(studio, id)
    },
  }),
  endpoint({
    method: 'post',
    path: '/api/batches/:id/stages/:stageId/start',
    summary: 'Begins a stage in a pot; the one before it ends',
    params: params.extend({ stageId: z.string().min(1).max(200) }),
    body: stageStart,
    answer: stageRunAnswer,
    status: 201,
    handle: ({ params: { id, stageId }, body }) => keeper.startStage(id, stageId, body),
  }),
  endpoint({
    method: 'post',
    path: '/api/batches/:id/events',
    summary: 'Notes what was done, with the words of the trace file; an earlier time is kept with a mark',
    params,
    body: newEvent,
    answer: eventAnswer,
    status: 201,
    handle: async ({ params: { id }, body }) => {
      const parsed = parseEvent(body.event)
      if (!parsed.ok) throw new Problem(400, parsed.why)
      const batch = await keeper.batch(id)
      const potId = batch.potId ?? null
      if (potId === null) throw new Problem(409, `batch ${id} is in no pot yet; begin a stage first`)
      const { event } = parsed
      if (event.kind === 'stage')
        await keeper.startStage(id, event.stageId, { potId, atMs: body.atMs, who: body.who })
      else if (event.kind === 'end') await keeper.endBatch(id, body.atMs, body.who)
      else return keeper.note({ potId, event, atMs: body.atMs, who: body.who }, id)
      return (await studio.store.events.ofBatch(bathId(batch))).findLast((e) => e.event.kind === event.kind)
    },
  }),
  endpoint({
    method: 'post',
    path: '/api/batches/:id/events/:eventId/strike',
    summary: 'Takes back what was noted by mistake; it stays on record, struck through',
    params: params.extend({ eventId: idText }),
    body: z.strictObject({ who: z.string().max(80).nullable().default(null) }),
    answer: batchAnswer,
    handle: async ({ params: { id, eventId }, body }) => {
      const bath = await keeper.bath(id)
      const known = (await studio.store.events.ofBatch(bath.id)).find((e) => e.id === eventId)
      if (known === undefined) throw notFound(`event ${eventId} in batch ${id}`)
      if (known.event.kind === 'stage' || known.event.kind === 'end')
        throw new Problem(409, 'the begin of a stage and the end of a batch can’t be taken back')
      await keeper.strike(eventId, body.who)
      return wholeBatch(studio, id)
    },
  }),
  endpoint({
    method: 'post',
    path: '/api/batches/:id/end',
    summary: 'Ends the running stage and the batch',
    params,
    body: batchEnd,
    answer: batchAnswer,
    handle: async ({ params: { id }, body }) => {
      await keeper.endBatch(id, body.atMs, body.who)
      return wholeBatch(studio, id)
    },
  }),
]
