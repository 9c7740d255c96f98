import { z } from 'zod'
import type { Vessel } from '#core/bath/vessel'
import {
  burnerAnswer,
  byWhom,
  eveningAnswer,
  forecastAnswer,
  mixingAnswer,
  mixingAsk,
  whatIfAnswer,
  whatIfAsk,
} from '#core/wire/api-burner'
import { potId } from '#core/wire/api-fields'
import type { BurnerPage } from '#core/wire/burner'
import type { PotRecord } from '#core/wire/records'
import { batchEnergy } from '../heat/batch-energy.ts'
import { burnerPhysics, burnerTraces, forecastRecord } from '../heat/burner-page.ts'
import { forecastPath } from '../heat/forecast-path.ts'
import { mixInto } from '../heat/mixing.ts'
import { whatIf } from '../heat/what-if.ts'
import { endpoint, type Endpoint } from '../http/endpoint.ts'
import { notFound, Problem } from '../http/problem.ts'
import type { Studio } from '../studio.ts'

const params = z.strictObject({ id: potId })

/** So many batches' energy is shown. */
const ENERGY_OF = 8

/** What is known of a pot on its burner, what it would do, and how it is learned. Nothing here switches heat. */
export const burnerRoutes = (studio: Studio): readonly Endpoint[] => [
  endpoint({
    method: 'get',
    path: '/api/pots/:id/burner',
    summary: 'How the pot behaves on its burner, how that was learned and how good it has been',
    params,
    answer: burnerAnswer,
    handle: ({ params: { id } }) => burnerPage(studio, id),
  }),
  endpoint({
    method: 'post',
    path: '/api/pots/:id/burner/learn',
    summary: 'Learns the pot anew from all its traces',
    params,
    answer: burnerAnswer,
    handle: async ({ params: { id } }) => {
      await potWithVessel(studio, id)
      await studio.burners.learn(id, 0)
      return burnerPage(studio, id)
    },
  }),
  endpoint({
    method: 'post',
    path: '/api/pots/:id/burner/changed',
    summary:
      'The burner was changed or mended now: what was known of it goes, what is known of the pot stays',
    params,
    body: byWhom,
    answer: burnerAnswer,
    handle: async ({ params: { id }, body }) => {
      await potWithVessel(studio, id)
      await studio.burners.changeBurner(id, body.who)
      return burnerPage(studio, id)
    },
  }),
  endpoint({
    method: 'post',
    path: '/api/pots/:id/what-if',
    summary: 'The course of a bath with other litres, lid, dial, surroundings or start, with its 90 % band',
    params,
    body: whatIfAsk,
    answer: whatIfAnswer,
    handle: async ({ params: { id }, body }) => {
      const { belief } = await potWithVessel(studio, id)
      return whatIf(belief, studio.burners.isGuess(id), body)
    },
  }),
  endpoint({
    method: 'post',
    path: '/api/pots/:id/mixing',
    summary: 'Where the bath stands once goods have gone in or it was topped up',
    params,
    body: mixingAsk,
    answer: mixingAnswer,
    handle: async ({ params: { id }, body }) => {
      const { belief } = await potWithVessel(studio, id)
      const bathC = body.bathC ?? studio.watching.numbers(id).tempC
      if (bathC === null)
        throw new Problem(409, 'the bath of this pot is not seen now; give its temperature as bathC')
      return mixInto(belief, bathC, body)
    },
  }),
  endpoint({
    method: 'get',
    path: '/api/pots/:id/forecast',
    summary: 'The way of the bath from now on if nothing is touched, with its 90 % band',
    params,
    answer: forecastAnswer,
    handle: async ({ params: { id } }) => {
      await potOf(studio, id)
      return forecastPath(studio.watching.forecast(id), studio.clock.nowMs())
    },
  }),
  ...eveningRoutes(studio),
]

const eveningRoutes = (studio: Studio): readonly Endpoint[] => [
  endpoint({
    method: 'get',
    path: '/api/pots/:id/evening',
    summary: 'The guided evening with plain water: what to set now and how far it has come',
    params,
    answer: eveningAnswer,
    handle: async ({ params: { id } }) => {
      await potOf(studio, id)
      return studio.evenings.answer(id)
    },
  }),
  endpoint({
    method: 'post',
    path: '/api/pots/:id/evening',
    summary: 'Begins the evening; somebody stays with the lit burner all the time',
    params,
    answer: eveningAnswer,
    handle: async ({ params: { id } }) => {
      await potOf(studio, id)
      await studio.evenings.start(id)
      return studio.evenings.answer(id)
    },
  }),
  endpoint({
    method: 'post',
    path: '/api/pots/:id/evening/end',
    summary: 'Ends the evening early; what was seen counts unless it is thrown away',
    params,
    body: z.strictObject({ learn: z.boolean().default(true) }),
    answer: eveningAnswer,
    handle: async ({ params: { id }, body }) => {
      await potOf(studio, id)
      await studio.evenings.stop(id, body.learn)
      return studio.evenings.answer(id)
    },
  }),
]

async function burnerPage(studio: Studio, id: string): Promise<BurnerPage> {
  const { pot, vessel, belief } = await potWithVessel(studio, id)
  const { taught, burnerChangesMs } = studio.burners.page(id)
  const { titles, energy } = await batchesOn(studio, id, belief)
  return {
    pot: { id: pot.id, title: pot.title, vessel, probe: pot.probe },
    isGuess: studio.burners.isGuess(id),
    ...burnerPhysics(belief),
    traces: burnerTraces(taught, titles),
    record: forecastRecord(taught),
    burnerChangesMs: [...burnerChangesMs],
    energy,
  }
}

async function batchesOn(
  studio: Studio,
  pot: string,
  belief: Parameters<typeof batchEnergy>[0],
): Promise<{ titles: ReadonlyMap<number, string>; energy: BurnerPage['energy'] }> {
  const { store, clock, settings } = studio
  const found = await store.lookUp.find({ facets: [{ kind: 'pot', value: pot }], limit: 40 })
  const pricePerKWh = settings().energyPricePerKWh ?? null
  const energy: BurnerPage['energy'][number][] = []
  for (const { id } of found.filter(({ bathOf }) => bathOf === null).slice(0, ENERGY_OF)) {
    const batch = await store.batches.get(id)
    if (batch === null) continue
    const work = { events: await store.events.ofBatch(id), nowMs: clock.nowMs(), pricePerKWh }
    const used = batchEnergy(belief, batch, pot, work)
    if (used !== null) energy.push(used)
  }
  return { titles: new Map(found.map(({ id, title }) => [id, title])), energy }
}

async function potOf(studio: Studio, id: string): Promise<PotRecord> {
  const pot = await studio.store.pots.get(id)
  if (pot === null) throw notFound(`pot "${id}"`)
  return pot
}

async function potWithVessel(studio: Studio, id: string) {
  const pot = await potOf(studio, id)
  const belief = studio.burners.beliefOf(id, pot.vessel)
  if (pot.vessel === null || belief === null)
    throw new Problem(409, 'this pot has no vessel: give its litres and the highest number on its dial first')
  const vessel: Vessel = pot.vessel
  return { pot, vessel, belief }
}
