import { z } from 'zod'
import type { Plan } from '#core/plan/plan'
import { morningPage } from '#core/watch/morning-page'
import { isoTime } from '#core/wire/api-fields'
import { morningAnswer } from '#core/wire/api-telling'
import { morningText } from '#core/words/morning-text'
import type { StoredBatch } from '../../store/batches.ts'
import { endpoint, type Endpoint } from '../http/endpoint.ts'
import { Problem } from '../http/problem.ts'
import { nightOf } from '../night.ts'
import { personOf } from '../person-of.ts'
import type { Studio } from '../studio.ts'
import { namesOn } from '../watch/stove-words.ts'

/** From the evening's last look to the morning's first. */
const NIGHT_MS = 14 * 3_600_000
const MOST_MS = 7 * 86_400_000

export const morningRoutes = (studio: Studio): readonly Endpoint[] => [
  endpoint({
    method: 'get',
    path: '/api/morning',
    summary: 'What the last 14 hours left to know and to do, or another stretch of at most a week',
    query: z.strictObject({ from: isoTime.optional(), to: isoTime.optional() }),
    answer: morningAnswer,
    handle: async ({ query }) => {
      const toMs = Math.min(query.to ?? studio.clock.nowMs(), studio.clock.nowMs())
      const fromMs = query.from ?? toMs - NIGHT_MS
      if (fromMs >= toMs || toMs - fromMs > MOST_MS)
        throw new Problem(400, 'from must lie before to and before now, by at most a week')
      await studio.watching.saveOutcomes()
      const { night, batches } = await nightOf(studio, { fromMs, toMs })
      return worded(studio, morningPage(night), batches)
    },
  }),
]

function worded(studio: Studio, page: ReturnType<typeof morningPage>, batches: readonly StoredBatch[]) {
  const person = personOf(studio.settings())
  const items = page.items.map((item) => {
    const batch = 'batchId' in item ? batches.find(({ id }) => id === item.batchId) : undefined
    const names = { ...namesOn(studio.stove), stages: stageNames(batch?.plan) }
    return { text: morningText(item, names, person), ...item }
  })
  return { ...page, items }
}

/** Two plans may call different stages by the same id. */
const stageNames = (plan: Plan | undefined) =>
  Object.fromEntries((plan?.stages ?? []).map(({ id, title }) => [id, title]))
