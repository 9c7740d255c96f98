import { z } from 'zod'
import type { LifeAct } from '#core/watch/alarm-life'
import { alarmAnswer, countText, idText, isoTime, potId, who } from '#core/wire/api-fields'
import { alarmRecord } from '../../store/alarms.ts'
import { endpoint, type Endpoint } from '../http/endpoint.ts'
import { notFound, Problem } from '../http/problem.ts'
import type { Studio } from '../studio.ts'

const params = z.strictObject({ id: idText })
const nothing = z.strictObject({})

/** Alarms: looked up, acknowledged, shelved. */
export const alarmRoutes = (studio: Studio): readonly Endpoint[] => [
  endpoint({
    method: 'get',
    path: '/api/alarms',
    summary: 'Alarms, newest first, a page at a time',
    query: z.strictObject({
      limit: countText(1000, 200),
      before: idText.optional(),
      pot: potId.optional(),
      batch: idText.optional(),
      since: isoTime.optional(),
    }),
    answer: z.array(alarmAnswer),
    handle: async ({ query: { limit, before, pot, batch, since } }) => {
      const rows = await studio.store.alarms.list({
        limit,
        ...(before === undefined ? {} : { beforeId: before }),
        ...(pot === undefined ? {} : { potId: pot }),
        ...(batch === undefined ? {} : { batchId: batch }),
        ...(since === undefined ? {} : { sinceMs: since }),
      })
      return rows.map(alarmRecord)
    },
  }),
  endpoint({
    method: 'post',
    path: '/api/alarms/:id/acknowledge',
    summary: 'Somebody is going there',
    params,
    body: z.strictObject({ who }),
    answer: alarmAnswer,
    handle: ({ params: { id }, body }) =>
      act(studio, id, { kind: 'acknowledge', atMs: studio.clock.nowMs(), who: body.who }),
  }),
  endpoint({
    method: 'post',
    path: '/api/alarms/:id/shelve',
    summary: 'Makes no sound for some minutes',
    params,
    body: z.strictObject({ minutes: z.number() }),
    answer: alarmAnswer,
    handle: ({ params: { id }, body }) =>
      act(studio, id, { kind: 'shelve', atMs: studio.clock.nowMs(), minutes: body.minutes }),
  }),
  endpoint({
    method: 'post',
    path: '/api/alarms/:id/unshelve',
    summary: 'Sounds again',
    params,
    body: nothing,
    answer: alarmAnswer,
    handle: ({ params: { id } }) => act(studio, id, { kind: 'unshelve', atMs: studio.clock.nowMs() }),
  }),
]

async function act(studio: Studio, alarmId: number, done: LifeAct) {
  const known = studio.teller.find(alarmId)
  if (known === null) {
    const old = await studio.store.alarms.get(alarmId)
    if (old === null) throw notFound(`alarm ${alarmId}`)
    throw new Problem(409, 'this alarm is over and done with')
  }
  const refused = studio.teller.act(alarmId, done)
  if (refused !== null) throw new Problem(409, refused)
  return alarmRecord(studio.teller.find(alarmId)!)
}
