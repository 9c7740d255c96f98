import { BELIEF_LAWS } from '#core/bath/pot-belief'
import type { Vessel } from '#core/bath/vessel'
import type { Lesson, TaughtTrace } from '../../store/heat.ts'
import type { Store } from '../../store/store.ts'
import type { Recorder } from '../recorder.ts'
import type { BathSpan } from './bath-spans.ts'
import { carryBelief, type Known } from './carry-belief.ts'
import type { HeatWork } from './heat-work.ts'
import { loadDay } from './load-day.ts'
import { recordedFills } from './recorded-fills.ts'

export interface LearnParts {
  readonly store: Store
  readonly recorder: Recorder
  readonly work: HeatWork
}

/** The pot as it stands now, and the probe that hangs in it. */
export interface PotToLearn {
  readonly potId: string
  readonly vessel: Vessel
  readonly probe: string | null
}

/**
 * Learns one fill after the other from the first that is new or was changed on, each with what was believed before it.
 * `sinceMs`: the record was changed from then on. `isOff` stops it between two fills. `false`: nothing was new.
 */
export async function learnFills(
  parts: LearnParts,
  pot: PotToLearn,
  sinceMs: number,
  isOff: () => boolean,
): Promise<boolean> {
  const { heat } = parts.store
  const spans = await recordedFills(parts.store, pot.potId, pot.probe)
  const rows = await heat.taught(pot.potId)
  const changes = await heat.burnerChanges(pot.potId)
  const gone = await forget(parts, rows, spans)
  const changedMs = Math.min(sinceMs, ...gone.map((row) => row.fromMs))
  const first = spans.findIndex((span) => span.toMs >= changedMs || !isTaught(rows, span))
  const stands = rows.filter((row) => !gone.includes(row))
  let known = lastKnown(stands.filter((row) => row.fromMs < (spans[first]?.fromMs ?? Infinity)))
  for (const span of first < 0 ? [] : spans.slice(first)) {
    if (isOff()) return true
    const vessel = { ...pot.vessel, litres: litresOf(rows, span) ?? pot.vessel.litres }
    const row = await teachOne(parts, pot.potId, { span, known, changes, vessel })
    if (row.lesson !== null) known = { belief: row.lesson.belief, atMs: row.fromMs }
  }
  return first >= 0 || gone.length > 0
}

async function teachOne(
  { store, recorder, work }: LearnParts,
  potId: string,
  one: {
    readonly span: BathSpan
    readonly known: Known | null
    readonly changes: readonly number[]
    readonly vessel: Vessel
  },
): Promise<TaughtTrace> {
  const { span, known, changes, vessel } = one
  const day = await loadDay(store, potId, span, vessel)
  const before = carryBelief(known, { vessel, atMs: span.fromMs, burnerChangesMs: changes })
  const lesson = day === null ? null : await work.run({ kind: 'teach', before, day })
  const { batchId, fromMs, toMs } = span
  const row = { potId, batchId, fromMs, toMs, litres: vessel.litres, lesson }
  await recorder.write(() => store.heat.putTaught(row))
  return row
}

/** Rows of fills that are no longer in the record as they were: a stage that was taken back or moved. */
async function forget(
  { store, recorder }: LearnParts,
  rows: readonly TaughtTrace[],
  spans: readonly BathSpan[],
): Promise<readonly TaughtTrace[]> {
  const oldest = spans[0]?.fromMs ?? Infinity
  const gone = rows.filter((row) => row.fromMs >= oldest && !spans.some((span) => span.fromMs === row.fromMs))
  for (const { potId, fromMs } of gone) await recorder.write(() => store.heat.removeTaught(potId, fromMs))
  return gone
}

/** What the newest fill that taught something left behind. */
export function lastKnown(taught: readonly TaughtTrace[]): Known | null {
  for (const { lesson, fromMs } of taught.toReversed())
    if (lesson !== null && isOfToday(lesson)) return { belief: lesson.belief, atMs: fromMs }
  return null
}

/** Learned by the laws that this program counts by. */
export const isOfToday = ({ laws }: Lesson): boolean => laws === BELIEF_LAWS

/**
 * As the record has it now: an evening without a lesson has not been learned from yet, and a fill whose water was put
 * right, or that was learned by other laws, is learned again.
 */
const isTaught = (rows: readonly TaughtTrace[], span: BathSpan): boolean =>
  rows.some(
    ({ fromMs, toMs, litres, batchId, lesson }) =>
      fromMs === span.fromMs &&
      toMs === span.toMs &&
      (span.litres === null || litres === span.litres) &&
      (lesson === null ? batchId !== null : isOfToday(lesson)),
  )

/** The water of that day; of a day that an older version kept, the water with which it was learned first. */
const litresOf = (rows: readonly TaughtTrace[], { fromMs, litres }: BathSpan): number | null =>
  litres ?? rows.find((row) => row.fromMs === fromMs)?.litres ?? null
