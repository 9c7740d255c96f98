import type { BathEvent } from '#core/plan/event'
import type { Plan } from '#core/plan/plan'
import { DYER } from './studio.ts'
import type { Store } from '../store/store.ts'

/** A day at one pot, ready to be put on record. Times in Unix ms UTC, events and readings by time. */
export interface DayToKeep {
  readonly title: string
  readonly planId: number
  readonly plan: Plan
  readonly potId: string
  readonly probe: string
  readonly dryKg: number
  readonly readings: readonly { readonly atMs: number; readonly rawC: number }[]
  readonly events: readonly { readonly atMs: number; readonly event: BathEvent }[]
}

/** Readings in one commit; more would hold up whoever waits. */
const AT_A_TIME = 5000

/** Puts a day on record as if it had been watched; the batch's number. It ends where its events say so. */
export async function keepDay(store: Store, day: DayToKeep): Promise<number> {
  const startedMs = day.events[0]?.atMs ?? 0
  const { id } = await store.batches.add({
    title: day.title,
    planId: day.planId,
    planVersion: 1,
    dryWeightG: Math.round(day.dryKg * 1000),
    madeMs: startedMs - 600_000,
  })
  for (const { atMs, event } of day.events) await keepEvent(store, day, id, atMs, event)
  await keepReadings(store, day)
  return id
}

async function keepEvent(store: Store, day: DayToKeep, batchId: number, atMs: number, event: BathEvent) {
  const { potId, probe } = day
  if (event.kind === 'stage') {
    await store.batches.startStage({ batchId, stageId: event.stageId, potId, probe, startedMs: atMs })
  }
  const stageId = stageAt(day, atMs)
  await store.events.add({ atMs, notedMs: atMs, potId, batchId, stageId, event, who: DYER })
  if (event.kind === 'end') await store.batches.end(batchId, atMs)
}

function stageAt(day: DayToKeep, atMs: number): string | null {
  const begun = day.events.filter(({ atMs: at, event }) => at <= atMs && event.kind === 'stage')
  const last = begun.at(-1)?.event
  return last?.kind === 'stage' ? last.stageId : null
}

/** Puts readings on record, raw ones taken for true. */
export async function keepReadings(
  store: Store,
  { probe, readings }: Pick<DayToKeep, 'probe' | 'readings'>,
): Promise<void> {
  for (let from = 0; from < readings.length; from += AT_A_TIME) {
    const some = readings.slice(from, from + AT_A_TIME).map(({ atMs, rawC }) => ({
      reading: { kind: 'temp' as const, probe, atMs, rawC, tempC: rawC, verdict: 'good' as const },
      serial: null,
    }))
    await store.readings.add(some)
  }
}
