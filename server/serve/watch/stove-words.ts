import { alarmText } from '#core/words/alarm-text'
import type { Names } from '#core/words/names'
import { noticeText } from '#core/words/notice-text'
import type { Person } from '#core/words/person'
import type { StoredBatch } from '../../store/batches.ts'
import type { PotsOnStove } from './pots-on-stove.ts'
import type { StoveWords } from './stove-watch.ts'

/** Sentences with the names that pots and stages have now. */
export const stoveWords = (stove: PotsOnStove, person: () => Person): StoveWords => ({
  alarm: (happening, batch) => {
    const names = namesOn(stove)
    return alarmText(happening, batch === undefined ? names : namesIn(batch, names), person())
  },
  notice: (happening) => noticeText(happening, namesOn(stove), person()),
})

export function namesOn(stove: PotsOnStove): Names {
  const pots: Record<string, string> = {}
  const stages: Record<string, string> = {}
  const contents: Record<string, string> = {}
  for (const { pot, batch } of stove.all) {
    pots[pot.id] = pot.title
    if (batch === null) continue
    contents[pot.id] = batch.title
    for (const stage of batch.plan.stages) stages[stage.id] = stage.title
  }
  return { pots, stages, contents }
}

/** Of a batch that has left its pots. */
const namesIn = ({ title, stages, plan }: StoredBatch, { pots }: Names): Names => ({
  pots,
  stages: Object.fromEntries(plan.stages.map((stage) => [stage.id, stage.title])),
  contents: Object.fromEntries(stages.map((run) => [run.potId, title])),
})
