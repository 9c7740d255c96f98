import { z } from 'zod'
import type { Correction } from '#core/measure/correction'
import { decodeProbe } from '#core/wire/probe-settings'
import { correctionAnswer, newCorrection, probeAnswer } from '#core/wire/api-probes'
import { doneAnswer, probe } from '#core/wire/api-fields'
import type { CorrectionRecord } from '../../store/probes.ts'
import { endpoint, type Endpoint } from '../http/endpoint.ts'
import { notFound, Problem } from '../http/problem.ts'
import type { Studio } from '../studio.ts'
import { probeList } from './probe-list.ts'

const params = z.strictObject({ name: probe })

/** Probes: what they say, how they are found, how they are corrected. */
export const probeRoutes = (studio: Studio): readonly Endpoint[] => [
  endpoint({
    method: 'get',
    path: '/api/probes',
    summary: 'Every probe with its last reading and how it is doing',
    answer: z.array(probeAnswer),
    handle: () => probeList(studio),
  }),
  endpoint({
    method: 'get',
    path: '/api/probe-settings',
    summary: 'How the bridges find the probes: those of the file and those set here, one list',
    answer: z.array(z.looseObject({ name: z.string(), kind: z.string() })),
    handle: async () => studio.bridges.probeSettings().map(withoutSecrets),
  }),
  endpoint({
    method: 'post',
    path: '/api/probe-settings',
    summary: 'Adds a probe, or changes one that was set here',
    body: z.unknown().meta({ description: 'one entry of "probes" in the settings file' }),
    answer: z.looseObject({ name: z.string(), kind: z.string() }),
    status: 201,
    handle: async ({ body }) => {
      const decoded = decodeProbe(body)
      if (typeof decoded === 'string') throw new Problem(400, decoded)
      if (studio.bridges.isInFile(decoded.name))
        throw new Problem(409, `probe "${decoded.name}" stands in the settings file; change it there`)
      await saveSetting(studio, decoded.name, body)
      return withoutSecrets(decoded)
    },
  }),
  endpoint({
    method: 'delete',
    path: '/api/probe-settings/:name',
    summary: 'Bridges look for this probe no longer; its readings stay',
    params,
    answer: doneAnswer,
    handle: async ({ params: { name } }) => {
      if (studio.bridges.isInFile(name))
        throw new Problem(409, `probe "${name}" stands in the settings file; take it out there`)
      if (!studio.bridges.probeSettings().some((p) => p.name === name))
        throw notFound(`setting for probe "${name}"`)
      await saveSetting(studio, name, null)
      return { ok: true }
    },
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

async function saveSetting(studio: Studio, name: string, setting: unknown): Promise<void> {
  await studio.recorder.write(() => studio.store.probes.setSetting(name, setting, studio.clock.nowMs()))
  studio.probes.add([name])
  await studio.bridges.load(studio.store.probes)
}

/** Passwords stay with the bridge. */
function withoutSecrets(setting: object): object {
  return 'password' in setting ? { ...setting, password: '•••' } : setting
}

/** Stored rows → what the core applies. */
export function byProbe(records: readonly CorrectionRecord[]): ReadonlyMap<string, readonly Correction[]> {
  const all = new Map<string, Correction[]>()
  for (const { probe: name, fromMs, body } of records) {
    const correction = { ...(body as object), fromMs } as Correction
    all.set(name, [...(all.get(name) ?? []), correction])
  }
  return all
}
