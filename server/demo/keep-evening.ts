import type { PotBelief } from '#core/bath/pot-belief'
import { seededRandom } from '#core/measure/seeded-random'
import type { Store } from '../store/store.ts'
import { keepReadings } from './keep-day.ts'
import { simulateEvening } from './simulated-evening.ts'
import { type DemoPot, DYER } from './studio.ts'

/**
 * Puts a guided evening with plain water on record that ended at `endedMs`; the server learns from it when it starts.
 * The answer is what the dyer knows from then on.
 */
export async function keepEvening(store: Store, pot: DemoPot, endedMs: number): Promise<PotBelief> {
  const potId = pot.probe
  const { readings, events, lengthMs, belief } = simulateEvening(pot, seededRandom(pot.vessel.litres))
  const fromMs = endedMs - lengthMs
  for (const { atMs, event } of events)
    await store.events.add({
      atMs: fromMs + atMs,
      notedMs: fromMs + atMs,
      potId,
      batchId: null,
      stageId: null,
      event,
      who: DYER,
    })
  await keepReadings(store, {
    probe: pot.probe,
    readings: readings.map(({ atMs, tempC }) => ({ atMs: fromMs + atMs, rawC: tempC })),
  })
  const { litres } = pot.vessel
  await store.heat.putTaught({ potId, fromMs, toMs: endedMs, batchId: null, litres, lesson: null })
  return belief
}
