import { spreadOf } from './advise.ts'
import { type Evidence, learnAll } from './evidence.ts'
import { AT, type PotBelief } from './pot-belief.ts'
import type { PotTrace } from './pot-trace.ts'
import type { Vessel } from './vessel.ts'

/** What was learned, and the lid as last noted or judged. */
export interface Lidded {
  readonly evidence: Evidence
  readonly lid: 'on' | 'off'
  readonly lidJudged: boolean
}

/** Evaporation as a share of an open surface's over which a pot had no lid (half-way in ln), known at least so well. */
const OPEN = { share: 0.12, spread: 0.5 } as const

/** Learns with the lid as noted; where it never was, a lid is the usual thing unless the pot steams like an open one. */
export function learnLidded(vessel: Vessel, traces: readonly PotTrace[]): Lidded {
  const noted = traces.flatMap(({ events }) =>
    events.flatMap(({ event }) => (event.kind === 'lid' ? [event] : [])),
  )
  const last = noted.at(-1)
  const evidence = learnAll(vessel, traces)
  if (last !== undefined) return { evidence, lid: last.lid, lidJudged: false }
  const open = steamsOpen(evidence.belief) ? learnAll(vessel, traces.map(withoutLid)) : null
  return open !== null && costOf(open) < costOf(evidence)
    ? { evidence: open, lid: 'off', lidJudged: true }
    : { evidence, lid: 'on', lidJudged: true }
}

/** What was learned as if of a lidded pot steams like an open one. */
export function steamsOpen(belief: PotBelief): boolean {
  const isKnown = spreadOf(belief, (p) => p[AT.evaporationOn]!) < OPEN.spread
  return isKnown && Math.exp(belief.mean[AT.evaporationOn]!) > OPEN.share
}

const costOf = (evidence: Evidence): number => evidence.learned.reduce((sum, one) => sum + one.cost, 0)

/** The same trace, noted as of an open pot from its begin on. */
export const withoutLid = (trace: PotTrace): PotTrace => ({
  ...trace,
  events: [{ atMs: trace.readings[0]?.atMs ?? 0, event: { kind: 'lid', lid: 'off' } }, ...trace.events],
})
