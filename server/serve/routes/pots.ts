import { z } from 'zod'
import { parseEvent } from '#core/plan/event'
import { newEvent } from '#core/wire/api-batches'
import { doneAnswer, eventAnswer, potAnswer, potId, probe, title } from '#core/wire/api-fields'
import { typedReading } from '#core/wire/api-probes'
import { vesselSchema } from '#core/wire/vessel-file'
import { endpoint, type Endpoint } from '../http/endpoint.ts'
import { Problem } from '../http/problem.ts'
import { refuseUnknownProbe } from '../hang-probe.ts'
import type { StoveKeeper } from '../stove-keeper.ts'
import type { Studio } from '../studio.ts'
import { freePotId } from './free-pot-id.ts'

const params = z.strictObject({ id: potId })
const potBody = { title, vessel: vesselSchema.nullable().default(null) }

/** Pots on the stove: their vessel, their probe, and what is noted at them. */
export const potRoutes = (studio: Studio, keeper: StoveKeeper): readonly Endpoint[] => [
  endpoint({
    method: 'get',
    path: '/api/pots',
    summary: 'The pots on the stove',
    answer: z.array(potAnswer),
    handle: () => studio.store.pots.list(),
  }),
  endpoint({
    method: 'post',
    path: '/api/pots',
    summary: 'Puts a pot on the stove; without an id one is made from the title',
    body: z.strictObject({ ...potBody, id: potId.optional(), probe: probe.optional() }),
    answer: potAnswer,
    status: 201,
    handle: async ({ body }) => {
      const pots = await studio.store.pots.list()
      if (pots.some((pot) => pot.id === body.id))
        throw new Problem(409, `there is a pot "${body.id}" already`)
      if (body.probe !== undefined) refuseUnknownProbe(studio, body.probe)
      const id =
        body.id ??
        freePotId(
          body.title,
          pots.map((pot) => pot.id),
        )
      await keeper.addPot({ id, title: body.title, vessel: body.vessel })
      if (body.probe !== undefined) await keeper.hangProbe(id, body.probe)
      return keeper.pot(id)
    },
  }),
  endpoint({
    method: 'put',
    path: '/api/pots/:id',
    summary: 'Changes a pot’s title and vessel',
    params,
    body: z.strictObject(potBody),
    answer: potAnswer,
    handle: async ({ params: { id }, body }) => {
      await keeper.changePot({ id, title: body.title, vessel: body.vessel })
      return keeper.pot(id)
    },
  }),
  endpoint({
    method: 'delete',
    path: '/api/pots/:id',
    summary: 'Takes a pot off the stove; its batches stay',
    params,
    answer: doneAnswer,
    handle: async ({ params: { id } }) => {
      await keeper.removePot(id)
      return { ok: true }
    },
  }),
  endpoint({
    method: 'put',
    path: '/api/pots/:id/probe',
    summary: 'Hangs a probe into the pot from now on; null takes it out',
    params,
    body: z.strictObject({ probe: probe.nullable() }),
    answer: potAnswer,
    handle: async ({ params: { id }, body }) => {
      await keeper.hangProbe(id, body.probe)
      return keeper.pot(id)
    },
  }),
  endpoint({
    method: 'post',
    path: '/api/pots/:id/events',
    summary: 'Notes what was done at a pot, with the words of the trace file',
    params,
    body: newEvent,
    answer: eventAnswer,
    status: 201,
    handle: async ({ params: { id }, body }) => {
      const parsed = parseEvent(body.event)
      if (!parsed.ok) throw new Problem(400, parsed.why)
      if (parsed.event.kind === 'stage' || parsed.event.kind === 'end')
        throw new Problem(400, 'stages begin and end in a batch: use its own addresses')
      await keeper.pot(id)
      return keeper.note({ potId: id, event: parsed.event, atMs: body.atMs, who: body.who }, null)
    },
  }),
  endpoint({
    method: 'post',
    path: '/api/pots/:id/readings',
    summary: 'A spot check with a second thermometer, typed by hand; kept under the probe "<pot>.by-hand"',
    params,
    body: typedReading,
    answer: z.object({ probe: z.string(), atMs: z.number(), tempC: z.number() }),
    status: 201,
    handle: async ({ params: { id }, body }) => {
      const pot = await keeper.pot(id)
      const nowMs = studio.clock.nowMs()
      const byHand = `${pot.id}.by-hand`
      const atMs = Math.min(body.atMs ?? nowMs, nowMs)
      await studio.recorder.write(() => studio.store.probes.see(byHand, nowMs, true))
      await studio.intake.takeSamples([{ kind: 'temp', probe: byHand, atMs, rawC: body.tempC }])
      return { probe: byHand, atMs, tempC: body.tempC }
    },
  }),
]
