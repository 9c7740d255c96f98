import { z } from 'zod'
import { batchSummaryAnswer } from '#core/wire/api-batches'
import { compareQuery, findQuery, shadesQuery } from '#core/wire/api-record'
import type { Facet, FacetKind } from '../../store/look-up.ts'
import { endpoint, type Endpoint } from '../http/endpoint.ts'
import type { Studio } from '../studio.ts'
import { compareBatches } from './compare-batches.ts'

/** At most this many values of each facet are listed; whoever wants a rarer one types it. */
const FACET_VALUES = 50

const lab = z.object({ lightness: z.number(), a: z.number(), b: z.number() })

/** Looking up among all batches. */
export const lookUpRoutes = (studio: Studio): readonly Endpoint[] => [
  endpoint({
    method: 'get',
    path: '/api/find',
    summary: 'Batches by words, facets (facet=lot:R-11, may be repeated) and dates, newest first',
    query: findQuery,
    answer: z.array(batchSummaryAnswer),
    handle: ({ query: { text, facet, from, to, before, limit } }) =>
      studio.store.lookUp.find({
        facets: facetsOf(facet),
        limit,
        ...(text === undefined ? {} : { text }),
        ...(from === undefined ? {} : { fromMs: from }),
        ...(to === undefined ? {} : { toMs: to }),
        ...(before === undefined ? {} : { beforeId: before }),
      }),
  }),
  endpoint({
    method: 'get',
    path: '/api/facets',
    summary: 'What batches can be told apart by, with how many there are of each',
    answer: z.array(z.object({ kind: z.string(), value: z.string(), count: z.number() })),
    handle: () => studio.store.lookUp.facets(FACET_VALUES),
  }),
  endpoint({
    method: 'get',
    path: '/api/shades',
    summary: 'Colours of results for a shade card, by additive',
    query: shadesQuery,
    answer: z.array(
      z.object({
        batchId: z.number(),
        title: z.string(),
        fibre: z.string().nullable(),
        lab,
        percentWof: z.number().nullable(),
      }),
    ),
    handle: ({ query: { additive, limit } }) =>
      studio.store.lookUp.shades({ limit, ...(additive === undefined ? {} : { additive }) }),
  }),
  endpoint({
    method: 'get',
    path: '/api/compare',
    summary: 'Two to six batches on one time axis from goods-in, and what differed, without naming a cause',
    query: compareQuery,
    answer: z.object({
      batches: z.array(
        z.object({
          id: z.number(),
          title: z.string(),
          zeroMs: z.number(),
          windowC: z.tuple([z.number(), z.number()]).nullable(),
          points: z.array(z.tuple([z.number(), z.number()])),
          inAir: z.array(z.tuple([z.number(), z.number().nullable()])),
        }),
      ),
      differences: z.array(differenceAnswer),
    }),
    handle: ({ query: { ids } }) => compareBatches(studio, ids.split(',').map(Number)),
  }),
]

export const differenceAnswer = z.object({
  what: z.string(),
  of: z.string().nullable(),
  values: z.array(z.union([z.string(), z.number(), z.null()])),
  steps: z.number(),
})

function facetsOf(facet: string | string[] | undefined): readonly Facet[] {
  const all = facet === undefined ? [] : [facet].flat()
  return all.map((text) => {
    const colon = text.indexOf(':')
    return { kind: text.slice(0, colon) as FacetKind, value: text.slice(colon + 1) }
  })
}
