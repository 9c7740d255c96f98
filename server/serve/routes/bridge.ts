import { z } from 'zod'
import { bridgeState } from '#core/wire/bridge-link'
import { doneAnswer } from '#core/wire/api-fields'
import { endpoint, type Endpoint } from '../http/endpoint.ts'
import { NOT_CHANGED } from '../http/not-changed.ts'
import { Problem } from '../http/problem.ts'
import { isWatching } from '../health.ts'
import { probeLimits } from '../probe-limits.ts'
import type { Studio } from '../studio.ts'

const anything = z.looseObject({})

const limitsNow = ({ stove, beliefs, clock }: Studio) =>
  probeLimits(stove.all, (probe) => beliefs.correctionsOf(probe), clock.nowMs())

/** What bridges ask and tell, and what a person sees of them. */
export const bridgeRoutes = (studio: Studio): readonly Endpoint[] => [
  endpoint({
    method: 'get',
    path: '/api/bridge/settings',
    summary: 'What a bridge is to do; asked every 2 s with If-None-Match',
    query: z.strictObject({ bridge: z.string().max(64).default(''), own: z.enum(['0', '1']).default('1') }),
    answer: anything,
    handle: async ({ entry, header, answerHeader, query: { bridge, own } }) => {
      if (entry === 'person') throw new Problem(403, 'this is for bridges: it holds passwords of brokers')
      const { settings, etag } = studio.bridges.forBridge({ bridge, isOwn: own === '1' }, limitsNow(studio))
      answerHeader('ETag', etag)
      answerHeader('Cache-Control', 'no-cache')
      return header('if-none-match') === etag ? NOT_CHANGED : settings
    },
  }),
  endpoint({
    method: 'post',
    path: '/api/bridge/state',
    summary: 'How a bridge and its probes are doing; silence of it means that the bridge is lost',
    body: bridgeState,
    answer: doneAnswer,
    handle: async ({ body }) => {
      studio.bridges.hear(body)
      if (!isWatching(studio)) throw new Problem(503, 'the watch stands still: nobody watches the baths')
      return { ok: true }
    },
  }),
  endpoint({
    method: 'get',
    path: '/api/bridges',
    summary: 'The bridges and what they last told',
    answer: z.array(z.object({ up: z.boolean(), seenMs: z.number(), state: anything })),
    handle: async () => studio.bridges.all(),
  }),
  endpoint({
    method: 'post',
    path: '/api/find-probe',
    summary: 'Bridges list ports and topics with live values for ten minutes, or stop doing so',
    body: z.strictObject({ find: z.boolean() }),
    answer: doneAnswer,
    handle: async ({ body }) => {
      studio.bridges.find(body.find)
      return { ok: true }
    },
  }),
  endpoint({
    method: 'get',
    path: '/api/find-probe',
    summary: 'What the bridges have found',
    answer: z.object({ finding: z.boolean(), candidates: z.array(anything) }),
    handle: async () => ({ finding: studio.bridges.isFinding, candidates: studio.bridges.candidates() }),
  }),
]
