import type { PotBelief } from '#core/bath/pot-belief'
import { beginScript, liveUntil } from '#core/bath/pot-script'
import { probeC } from '#core/bath/simulated-pot'
import { seededRandom } from '#core/measure/seeded-random'
import type { Plan } from '#core/plan/plan'
import type { Person } from '#core/words/person'
import type { Store } from '../store/store.ts'
import { EARLIER, type EarlierBatch, EVENINGS } from './earlier.ts'
import { judgeDay } from './judge-day.ts'
import { type DayToKeep, keepDay } from './keep-day.ts'
import { keepEvening } from './keep-evening.ts'
import { simulateDay } from './simulated-dyer.ts'
import { fillShelf, keepPreparation, keepRecord } from './records.ts'
import { DEMO_POTS, type DemoPot, filledPot } from './studio.ts'
import { type PotToday, TODAY, notedSoFar } from './today.ts'

const PERIOD_S = 5
const HOUR_MS = 3_600_000
/** A probe has hung in its pot since long before the first batch. */
const HANGS_SINCE_MS = 60 * 24 * HOUR_MS

/**
 * Fills an empty store with the invented studio: pots with their probes, an evening with plain water at each, plans,
 * earlier batches, and the day so far. What the earlier days came to is judged by the watch itself.
 */
export async function furnish(store: Store, nowMs: number, person: Person): Promise<void> {
  await placePots(store, nowMs)
  const planIds = await keepPlans(store, nowMs)
  const taught = new Map<DemoPot, PotBelief>()
  for (const { pot, endedAgoH } of EVENINGS)
    taught.set(pot, await keepEvening(store, pot, nowMs - endedAgoH * HOUR_MS))
  const lots = await fillShelf(store, nowMs - HANGS_SINCE_MS)
  for (const batch of [...EARLIER].sort((a, b) => b.endedAgoH - a.endedAgoH)) {
    const isTaught = EVENINGS.some((e) => e.pot === batch.pot && e.endedAgoH > batch.endedAgoH)
    const day = earlierDay(batch, isTaught ? taught.get(batch.pot)! : null, planIds, nowMs)
    const batchId = await keepDay(store, day)
    await judgeDay(store, batchId, day, { pot: batch.pot, person })
    const endMs = nowMs - batch.endedAgoH * HOUR_MS
    await keepRecord(store, batchId, batch, { startMs: day.events[0]!.atMs, endMs, lots })
  }
  for (const today of TODAY) {
    const batchId = await keepDay(store, dayToday(today, planIds, nowMs))
    if (today.prepared !== undefined) await keepPreparation(store, batchId, today.prepared, nowMs)
  }
}

async function placePots(store: Store, nowMs: number): Promise<void> {
  for (const { title, probe, vessel } of DEMO_POTS) {
    await store.pots.add({ id: probe, title, vessel })
    await store.probes.see(probe, nowMs - HANGS_SINCE_MS, true)
    await store.pots.assign(probe, probe, nowMs - HANGS_SINCE_MS)
  }
}

async function keepPlans(store: Store, nowMs: number): Promise<ReadonlyMap<Plan, number>> {
  const plans = new Set([...TODAY, ...EARLIER].map(({ plan }) => plan))
  const ids = new Map<Plan, number>()
  for (const plan of plans) ids.set(plan, (await store.plans.add(plan, nowMs - HANGS_SINCE_MS)).id)
  return ids
}

type Ids = ReadonlyMap<Plan, number>

function earlierDay(batch: EarlierBatch, belief: PotBelief | null, planIds: Ids, nowMs: number): DayToKeep {
  const { plan, pot, dryKg, seed } = batch
  const random = seededRandom(seed)
  const jugAtMin = batch.jugAtMin ?? null
  const day = simulateDay({ plan, pot, dryKg, periodS: PERIOD_S, random, belief, jugAtMin })
  const startMs = Math.round(nowMs - batch.endedAgoH * HOUR_MS - day.endedS * 1000)
  return {
    ...named(batch.title, batch, planIds),
    readings: day.readings.map(({ atS, rawC }) => ({ atMs: startMs + atS * 1000, rawC })),
    events: day.events.map(({ atS, event }) => ({ atMs: startMs + atS * 1000, event })),
  }
}

function dayToday(today: PotToday, planIds: Ids, nowMs: number): DayToKeep {
  const events = notedSoFar(today).map(({ atS, event }) => ({ atMs: nowMs + atS * 1000, event }))
  return {
    ...named(today.batchTitle, today, planIds),
    readings: readingsSoFar(today, nowMs),
    events,
  }
}

interface Work {
  readonly plan: Plan
  readonly pot: DemoPot
  readonly dryKg: number
}

const named = (title: string, { plan, pot, dryKg }: Work, planIds: Ids) => ({
  title,
  plan,
  dryKg,
  planId: planIds.get(plan)!,
  potId: pot.probe,
  probe: pot.probe,
})

function readingsSoFar(today: PotToday, nowMs: number): DayToKeep['readings'] {
  const random = seededRandom(today.fillC)
  const readings: { atMs: number; rawC: number }[] = []
  let scripted = beginScript(filledPot(today.pot, today.fillC), today.script)
  for (let atS = firstS(today); atS < 0; atS += PERIOD_S) {
    scripted = liveUntil(scripted, atS)
    readings.push({ atMs: nowMs + atS * 1000, rawC: probeC(scripted.pot, random) })
  }
  return readings
}

/** The probe hung in the water before the stage was begun. */
const firstS = ({ stages, script }: PotToday): number =>
  Math.min(...stages.map((stage) => stage.atS), ...script.map((change) => change.atS)) - PERIOD_S
