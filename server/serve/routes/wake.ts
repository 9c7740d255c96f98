import { z } from 'zod'
import { clockOfDay, liftTemp } from '#core/wire/wake-fields'
import { endpoint, type Endpoint } from '../http/endpoint.ts'
import type { Studio } from '../studio.ts'

const wakeAnswer = z.object({
  wakeAt: z.string().nullable().describe('in the zone of the settings; null: no alarm clock'),
  liftC: z.number(),
  wakeMs: z.number().nullable().describe('when it next rings'),
})

/** When the dyer gets up, and how cool a bath must be by then. */
export const wakeRoutes = (studio: Studio): readonly Endpoint[] => [
  endpoint({
    method: 'get',
    path: '/api/wake',
    summary: 'When the alarm clock rings and how cool a bath must be to be lifted',
    answer: wakeAnswer,
    handle: async () => answerOf(studio),
  }),
  endpoint({
    method: 'put',
    path: '/api/wake',
    summary: 'Sets the alarm clock that cool-downs are held against; null takes it off',
    body: z.strictObject({ wakeAt: clockOfDay.nullable(), liftC: liftTemp.optional() }),
    answer: wakeAnswer,
    handle: async ({ body }) => {
      const { wakeAt, liftC = studio.wake.wish().liftC } = body
      await studio.wake.say({ wakeAt, liftC })
      studio.showStove()
      return answerOf(studio)
    },
  }),
]

const answerOf = ({ wake }: Studio) => ({ ...wake.wish(), wakeMs: wake.wake()?.wakeMs ?? null })
