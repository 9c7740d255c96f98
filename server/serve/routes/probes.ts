import { z } from 'zod'
import type { Correction } from '#core/measure/correction'
import { correctionAnswer, newCorrection, probeAnswer } from '#core/wire/api-probes'
import { doneAnswer, probe } from '#core/wire/api-fields'
import type { CorrectionRecord } from '../../store/probes.ts'
import { endpoint, type Endpoint } from '../http/endpoint.ts'
import { notFound } from '../http/problem.ts'
import type { Studio } from '../studio.ts'
import { probeList } from './probe-list.ts'

const params = z.strictObject({ name: probe })

/** Probes: what they say and how they are corrected. */
export const probeRoutes = (studio: Studio): readonly Endpoint[] => [
  endpoint({
    method: 'get',
    path: '/api/probes',
    summary: 'Every probe with its last reading and how it is doing',
    answer: z.array(probeAnswer),
    handle: () => probeList(studio),
  }),
  endpoint({
    method: 'post',
    path: '/api/probes/:name/accept',
    summary: 'Says that a probe which turned up by itself belongs here',
    params,
    body: z.strictObject({}),
    answer: doneAnswer,
    handle: async ({ params: { name } }) => {
      if (!studio.probes.has(name)) throw notFound(`probe "${name}"`)
      await studio.recorder.write(() => studio.store.probes.accept(name))
      return { ok: true }
    },
  }),
  endpoint({
    method: 'get',
    path: '/api/probes/:name/corrections',
    summary: 'All corrections of a probe, by the date from which they hold',
    params,
    answer: z.array(correctionAnswer),
    handle: async ({ params: { name } }) =>
      (await studio.store.probes.corrections()).filter((c) => c.probe === name),
  }),
  endpoint({
    method: 'post',
    path: '/api/probes/:name/corrections',
    summary: 'Adds a correction; readings that are stored already keep what was applied to them',
    params,
    body: newCorrection,
    answer: correctionAnswer,
    status: 201,
    handle: async ({ params: { name }, body: { who, fromMs, ...body } }) => {
      if (!studio.probes.has(name)) throw notFound(`probe "${name}"`)
      const madeMs = studio.clock.nowMs()
      const correction = { probe: name, fromMs: fromMs ?? madeMs, madeMs, who, body }
      const saved = await studio.recorder.write(() => studio.store.probes.addCorrection(correction))
      studio.beliefs.useCorrections(byProbe(await studio.store.probes.corrections()))
      return saved
    },
  }),
]

/** Stored rows → what the core applies. */
export function byProbe(records: readonly CorrectionRecord[]): ReadonlyMap<string, readonly Correction[]> {
  const all = new Map<string, Correction[]>()
  for (const { probe: name, fromMs, body } of records) {
    const correction = { ...(body as object), fromMs } as Correction
    all.set(name, [...(all.get(name) ?? []), correction])
  }
  return all
}
