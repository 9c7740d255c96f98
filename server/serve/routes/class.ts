import { z } from 'zod'
import { type ClassPot, classBatches } from '#core/batch/class-template'
import { newClass } from '#core/wire/api-record'
import { endpoint, type Endpoint } from '../http/endpoint.ts'
import { notFound } from '../http/problem.ts'
import type { StoveKeeper } from '../stove-keeper.ts'
import type { Studio } from '../studio.ts'

/** A class: a batch for each pot, made from one template in one go. */
export const classRoutes = (studio: Studio, keeper: StoveKeeper): readonly Endpoint[] => [
  endpoint({
    method: 'post',
    path: '/api/class',
    summary: 'Makes a batch for each pot of a class; pots without a probe are marked as read by hand',
    body: newClass,
    answer: z.array(
      z.object({ batchId: z.number(), title: z.string(), potId: z.string(), byHand: z.boolean() }),
    ),
    status: 201,
    handle: async ({ body }) => {
      const plans = await plansOf(studio, [body.planId, ...body.pots.flatMap((pot) => pot.planId ?? [])])
      const pots = await Promise.all(body.pots.map((pot) => keeper.pot(pot.potId)))
      const own = Object.fromEntries(
        body.pots.map((pot): [string, ClassPot] => [
          pot.potId,
          {
            ...(pot.planId === undefined ? {} : { plan: plans.get(pot.planId)!.plan }),
            ...(pot.dryWeightG === undefined ? {} : { dryWeightG: pot.dryWeightG }),
          },
        ]),
      )
      const { title, dryWeightG } = body
      const template = { title, dryWeightG, plan: plans.get(body.planId)!.plan, pots: own }
      const madeMs = studio.clock.nowMs()
      const made = classBatches(template, pots)
      return studio.recorder.write(() =>
        Promise.all(
          made.map(async (batch, i) => {
            const plan = plans.get(body.pots[i]!.planId ?? body.planId)!
            const saved = await studio.store.batches.add({
              title: batch.title,
              dryWeightG: batch.dryWeightG,
              planId: plan.id,
              planVersion: plan.version,
              madeMs,
            })
            return { batchId: saved.id, title: batch.title, potId: batch.potId, byHand: batch.byHand }
          }),
        ),
      )
    },
  }),
]

async function plansOf({ store }: Studio, ids: readonly number[]) {
  const found = await Promise.all(
    [...new Set(ids)].map(async (id) => {
      const plan = await store.plans.get(id)
      if (plan === null) throw notFound(`plan ${id}`)
      return [id, plan] as const
    }),
  )
  return new Map(found)
}
