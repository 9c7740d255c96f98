import { z } from 'zod'
import { doneAnswer, probe } from '#core/wire/api-fields'
import { shownProbe, withKeptLogin } from '#core/wire/probe-secrets'
import { decodeProbe, type ProbeSettings } from '#core/wire/probe-settings'
import { endpoint, type Endpoint } from '../http/endpoint.ts'
import { notFound, Problem } from '../http/problem.ts'
import type { StoveKeeper } from '../stove-keeper.ts'
import type { Studio } from '../studio.ts'

const params = z.strictObject({ name: probe })
const entry = z.unknown().meta({ description: 'one entry of "probes" in the settings file' })
const shown = z.looseObject({
  name: z.string(),
  kind: z.string(),
  hasPassword: z.boolean().optional().describe('a password is kept; it is never sent'),
})

/** How bridges find the probes. Those of the settings file are shown and changed there. */
export const probeSettingRoutes = (studio: Studio, keeper: StoveKeeper): readonly Endpoint[] => [
  endpoint({
    method: 'get',
    path: '/api/probe-settings',
    summary: 'How the bridges find the probes: those of the file and those set here, one list',
    answer: z.array(shown.extend({ setIn: z.enum(['file', 'page']) })),
    handle: async () =>
      studio.bridges
        .probeSettings()
        .map((setting) => Object.assign({ setIn: placeOf(studio, setting.name) }, shownProbe(setting))),
  }),
  endpoint({
    method: 'post',
    path: '/api/probe-settings',
    summary: 'Adds a probe, or sets one anew that was set here',
    body: entry,
    answer: shown,
    status: 201,
    handle: async ({ body }) => {
      const decoded = decoded400(body)
      refuseIfInFile(studio, decoded.name, 'change it there')
      await save(studio, decoded.name, body)
      return shownProbe(decoded)
    },
  }),
  endpoint({
    method: 'put',
    path: '/api/probe-settings/:name',
    summary:
      'Changes a probe that was set here; a login that is left out is kept for the same broker and user',
    params,
    body: entry,
    answer: shown,
    handle: async ({ params: { name }, body }) => {
      refuseIfInFile(studio, name, 'change it there')
      const whole = withKeptLogin(body, settingOf(studio, name))
      const decoded = decoded400(whole)
      if (decoded.name !== name)
        throw new Problem(
          400,
          `name is "${decoded.name}"; allowed is "${name}", for its readings are kept under it`,
        )
      await save(studio, name, whole)
      return shownProbe(decoded)
    },
  }),
  endpoint({
    method: 'delete',
    path: '/api/probe-settings/:name',
    summary: 'Bridges look for this probe no longer, and it hangs in no pot; its readings stay',
    params,
    answer: doneAnswer,
    handle: async ({ params: { name } }) => {
      refuseIfInFile(studio, name, 'take it out there')
      settingOf(studio, name)
      await keeper.takeOut(probesOf(studio, name))
      await save(studio, name, null)
      return { ok: true }
    },
  }),
  endpoint({
    method: 'get',
    path: '/api/probe-settings/:name/changes',
    summary: 'What was set of a probe here and when, oldest first; null where it was taken away',
    params,
    answer: z.array(z.object({ atMs: z.number(), setting: shown.nullable() })),
    handle: ({ params: { name } }) => studio.store.probes.changes(name),
  }),
]

const placeOf = ({ bridges }: Studio, name: string) => (bridges.isInFile(name) ? 'file' : 'page')

function decoded400(body: unknown): ProbeSettings {
  const decoded = decodeProbe(body)
  if (typeof decoded === 'string') throw new Problem(400, decoded)
  return decoded
}

function refuseIfInFile({ bridges }: Studio, name: string, what: string): void {
  if (bridges.isInFile(name)) throw new Problem(409, `probe "${name}" stands in the settings file; ${what}`)
}

function settingOf({ bridges }: Studio, name: string): ProbeSettings {
  const setting = bridges.probeSettings().find((p) => p.name === name)
  if (setting === undefined) throw notFound(`setting for probe "${name}"`)
  return setting
}

/** A source with several probes gives each a name of its own. */
function probesOf({ bridges }: Studio, source: string): ReadonlySet<string> {
  const reports = bridges.all().flatMap(({ state }) => state.probes)
  return new Set([source, ...reports.filter((r) => r.source === source).map((r) => r.probe)])
}

async function save(
  { store, recorder, clock, probes, bridges, watching }: Studio,
  name: string,
  setting: unknown,
) {
  const decoded = setting === null ? null : decodeProbe(setting)
  const noted = decoded === null || typeof decoded === 'string' ? null : shownProbe(decoded)
  const change = { setting, noted, atMs: clock.nowMs() }
  await recorder.write(() => store.probes.setSetting(name, change))
  if (setting !== null) probes.add([name])
  await bridges.load(store.probes)
  // Its lag is part of what the watch knows of a pot.
  await watching.rebuild()
}
