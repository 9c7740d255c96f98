import { z } from 'zod'
import { countText, isoTime, probe } from '#core/wire/api-fields'
import { endpoint, type Endpoint } from '../http/endpoint.ts'
import { notFound, Problem } from '../http/problem.ts'
import type { TracePoint } from '../../store/readings.ts'
import type { Studio } from '../studio.ts'

const DAY_MS = 24 * 3_600_000

const stretch = { probe, from: isoTime.optional(), to: isoTime.optional() }

/** Readings in, and traces back out. */
export const readingRoutes = (studio: Studio): readonly Endpoint[] => [
  endpoint({
    method: 'post',
    path: '/api/readings',
    summary: 'Takes a SenML pack (RFC 8428); answers once everything acceptable is on the disk',
    body: z.unknown().meta({ description: 'a SenML pack: an array of records, unit Cel' }),
    answer: z.object({
      stored: z.number(),
      duplicates: z.number(),
      refused: z.array(z.object({ index: z.number(), why: z.string() })),
    }),
    handle: ({ body, entry }) => studio.intake.takeSenml(body, entry === 'here' || entry === 'key'),
  }),
  endpoint({
    method: 'get',
    path: '/api/trace',
    summary: 'Corrected values of a probe: all of them, or the lowest and highest of each slot of time',
    query: z.strictObject({ ...stretch, points: countText(100_000, 1000) }),
    answer: z.object({ points: z.array(z.tuple([z.number(), z.number()])) }),
    handle: async ({ query }) => {
      const points = await studio.store.readings.trace(rangeOf(studio, query), Math.max(2, query.points))
      return { points: points.length <= query.points ? points : [highest(points)] }
    },
  }),
  endpoint({
    method: 'get',
    path: '/api/readings',
    summary: 'Every stored reading of a probe, raw and corrected, with its verdict; at most a day at a time',
    query: z.strictObject(stretch),
    answer: z.object({ readings: z.array(z.looseObject({ kind: z.string(), atMs: z.number() })) }),
    handle: async ({ query }) => {
      const range = rangeOf(studio, query)
      if (range.toMs - range.fromMs > DAY_MS)
        throw new Problem(400, 'from … to is longer than a day, which is allowed at most')
      return { readings: await studio.store.readings.between(range) }
    },
  }),
]

/** Where one point alone is asked for: the highest is what a ceiling is about. */
const highest = (points: readonly TracePoint[]): TracePoint =>
  points.reduce((most, point) => (point[1] > most[1] ? point : most))

/** Without `from` and `to` the last 24 hours. */
function rangeOf(
  studio: Studio,
  query: { readonly probe: string; readonly from?: number | undefined; readonly to?: number | undefined },
) {
  if (!studio.probes.has(query.probe)) throw notFound(`probe "${query.probe}"`)
  const toMs = query.to ?? studio.clock.nowMs() + 1
  const fromMs = query.from ?? toMs - DAY_MS
  if (fromMs > toMs)
    throw new Problem(400, 'from lies after to; allowed is a stretch that begins before it ends')
  return { probe: query.probe, fromMs, toMs }
}
