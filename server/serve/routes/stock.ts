import { z } from 'zod'
import { stockLeft } from '#core/batch/stock'
import { idText } from '#core/wire/api-fields'
import { newLot, newStockEvent } from '#core/wire/api-record'
import { endpoint, type Endpoint } from '../http/endpoint.ts'
import { notFound } from '../http/problem.ts'
import type { Studio } from '../studio.ts'

const lotAnswer = z.object({
  id: z.number(),
  material: z.string(),
  lot: z.string(),
  harvestYear: z.number().optional(),
  pricePerKg: z.number().optional(),
  leftG: z.number(),
})

/** Dyes and mordants by supplier lot. What was used comes from the weighings by itself. */
export const stockRoutes = (studio: Studio): readonly Endpoint[] => [
  endpoint({
    method: 'get',
    path: '/api/stock',
    summary: 'Every lot with what is left of it',
    answer: z.array(lotAnswer),
    handle: () => stock(studio),
  }),
  endpoint({
    method: 'post',
    path: '/api/stock',
    summary: 'Puts a new lot on the shelf',
    body: newLot,
    answer: lotAnswer,
    status: 201,
    handle: async ({ body: { receivedG, who, ...lot } }) => {
      const saved = await studio.recorder.write(() => studio.store.stock.addLot(lot))
      if (receivedG !== undefined)
        await addEvent(studio, saved.id, { kind: 'received', grams: receivedG, who })
      return { ...saved, leftG: receivedG ?? 0 }
    },
  }),
  endpoint({
    method: 'post',
    path: '/api/stock/:id/events',
    summary: 'Notes what came in, was thrown away or counted',
    params: z.strictObject({ id: idText }),
    body: newStockEvent,
    answer: z.array(lotAnswer),
    status: 201,
    handle: async ({ params: { id }, body }) => {
      if (!(await studio.store.stock.lots()).some((lot) => lot.id === id)) throw notFound(`lot ${id}`)
      await addEvent(studio, id, body)
      return stock(studio)
    },
  }),
]

async function stock({ store }: Studio) {
  const [lots, events] = await Promise.all([store.stock.lots(), store.stock.events()])
  const left = stockLeft(events)
  return lots.map((lot) => Object.assign({ leftG: left.get(lot.id) ?? 0 }, lot))
}

async function addEvent(
  { store, clock, recorder }: Studio,
  lotId: number,
  event: {
    readonly kind: 'received' | 'discarded' | 'counted'
    readonly grams: number
    readonly atMs?: number | undefined
    readonly who: string | null
  },
): Promise<void> {
  const notedMs = clock.nowMs()
  const { kind, grams, who } = event
  const row = { kind, grams, who, lotId, atMs: event.atMs ?? notedMs, notedMs }
  await recorder.write(() => store.stock.addEvent(row))
}
