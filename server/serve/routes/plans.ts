import { z } from 'zod'
import { boilingC } from '#core/bath/water'
import type { Plan } from '#core/plan/plan'
import { USUAL_PLACE } from '#core/plan/warn-plan'
import { idText } from '#core/wire/api-fields'
import { languageField, unitField } from '#core/wire/person-fields'
import { decodePlan } from '#core/wire/plan-file'
import { planFileSchema } from '#core/wire/plan-schema'
import { endpoint, type Endpoint } from '../http/endpoint.ts'
import { notFound, Problem } from '../http/problem.ts'
import { personOf } from '../person-of.ts'
import type { Studio } from '../studio.ts'

const params = z.strictObject({ id: idText })
/** Checked by `decodePlan`, whose sentences speak of stages by name; the schema here describes it. */
const body = z.unknown().meta(z.toJSONSchema(planFileSchema, { io: 'input' }) as Record<string, unknown>)
const planAnswer = z.object({
  id: z.number(),
  version: z.number(),
  savedMs: z.number(),
  plan: z.looseObject({ title: z.string() }),
})
/** Who reads the warnings; as the settings of the studio say when left out. */
const reader = z.strictObject({ unit: unitField.optional(), language: languageField.optional() })
const savedAnswer = planAnswer.extend({ warnings: z.array(z.string()) })

/** Plans and their versions. */
export const planRoutes = (studio: Studio): readonly Endpoint[] => [
  endpoint({
    method: 'get',
    path: '/api/plans',
    summary: 'All plans in their newest version',
    answer: z.array(planAnswer),
    handle: () => studio.store.plans.list(),
  }),
  endpoint({
    method: 'post',
    path: '/api/plans',
    summary: 'Saves a plan file; what is unusual in it is answered as warnings',
    query: reader,
    body,
    answer: savedAnswer,
    status: 201,
    handle: async (ask) => {
      const { plan, warnings } = planOf(studio, ask)
      const savedMs = studio.clock.nowMs()
      const saved = await studio.recorder.write(() => studio.store.plans.add(plan, savedMs))
      return { ...saved, warnings }
    },
  }),
  endpoint({
    method: 'post',
    path: '/api/plans/check',
    summary: 'Says what is wrong or unusual with a plan file, and saves nothing',
    query: reader,
    body,
    answer: z.object({ warnings: z.array(z.string()) }),
    handle: async (ask) => ({ warnings: planOf(studio, ask).warnings }),
  }),
  endpoint({
    method: 'get',
    path: '/api/plans/:id',
    summary: 'A plan in its newest version',
    params,
    answer: planAnswer,
    handle: async ({ params: { id } }) => {
      const plan = await studio.store.plans.get(id)
      if (plan === null) throw notFound(`plan ${id}`)
      return plan
    },
  }),
  endpoint({
    method: 'put',
    path: '/api/plans/:id',
    summary: 'Saves a new version of a plan; batches keep the version that they ran on',
    params,
    query: reader,
    body,
    answer: savedAnswer,
    handle: async (ask) => {
      const { plan, warnings } = planOf(studio, ask)
      const savedMs = studio.clock.nowMs()
      const saved = await studio.recorder.write(() =>
        studio.store.plans.addVersion(ask.params.id, plan, savedMs),
      )
      if (saved === null) throw notFound(`plan ${ask.params.id}`)
      return { ...saved, warnings }
    },
  }),
  endpoint({
    method: 'get',
    path: '/api/plans/:id/versions',
    summary: 'All versions of a plan, oldest first',
    params,
    answer: z.array(planAnswer),
    handle: async ({ params: { id } }) => {
      const versions = await studio.store.plans.versions(id)
      if (versions.length === 0) throw notFound(`plan ${id}`)
      return versions
    },
  }),
]

interface Ask {
  readonly body: unknown
  readonly query: z.output<typeof reader>
}

function planOf(
  studio: Studio,
  { body: json, query }: Ask,
): { readonly plan: Plan; readonly warnings: readonly string[] } {
  const own = personOf(studio.settings())
  const person = { ...own, unit: query.unit ?? own.unit, language: query.language ?? own.language }
  const place = { ...USUAL_PLACE, boilC: boilingC(studio.settings().altitudeM) }
  const decoded = decodePlan(json, place, person)
  if (!decoded.ok) throw new Problem(400, decoded.why)
  return decoded
}
