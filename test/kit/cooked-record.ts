import { join } from 'node:path'
import type { BathEvent } from '#core/plan/event'
import type { Plan } from '#core/plan/plan'
import { keepDay } from '../../server/demo/keep-day.ts'
import { openSqliteStore } from '../../server/store/sqlite/open-sqlite-store.ts'
import { type Doing, evening } from './stove-evening.ts'
import { type LabPot, labStart } from './stove-lab.ts'
import { tempFolder } from './temp-folder.ts'

/** The invented plan of the cooked days. */
export const ROOT_PLAN: Plan = {
  title: 'Root bath on Marl',
  fibre: 'wool',
  stages: [
    {
      id: 'dye',
      title: 'Root bath',
      kind: 'hold',
      windowC: [66, 72],
      ceilingC: 78,
      holdMin: 60,
      goods: true,
      additives: [],
    },
    { id: 'cool', title: 'Cool in the bath', kind: 'cool', coolToC: 45, additives: [] },
  ],
}

/** Up at full, turned down, held, turned off and left with the lid on. */
export const USUAL_DAY: readonly Doing[] = [
  { dial: 9, lid: 'on', minutes: 120, untilC: 62 },
  { dial: 3, minutes: 60 },
  { dial: 4, minutes: 40 },
  { dial: 0, minutes: 420, downToC: 44 },
]

/**
 * A data folder whose record holds days of a lab pot "heron" with the probe "heron", the last of them ended at
 * `endedMs`, a day apart. The pot's physics is richer than the model, so nothing learned here is given away.
 */
export async function cookedRecord(pot: LabPot, days: number, endedMs: number): Promise<string> {
  const folder = tempFolder()
  const store = await openSqliteStore(join(folder, 'holdfast.db'))
  await store.pots.add({ id: 'heron', title: 'Heron', vessel: pot.vessel })
  await store.probes.see('heron', 0, true)
  await store.pots.assign('heron', 'heron', 0)
  const { id: planId } = await store.plans.add(ROOT_PLAN, 0)
  for (let ago = days - 1; ago >= 0; ago--) {
    const day = evening(pot, USUAL_DAY, labStart(pot))
    const startMs = endedMs - ago * 86_400_000 - day.end.atS * 1000
    const offMs = startMs + day.trace.events.findLast((e) => e.event.kind === 'dial')!.atMs
    const noted = day.trace.events.map(({ atMs, event }) => ({
      atMs: startMs + atMs,
      event: event as BathEvent,
    }))
    const stages = [
      { atMs: startMs, event: { kind: 'stage', stageId: 'dye' } as const },
      { atMs: offMs, event: { kind: 'stage', stageId: 'cool' } as const },
    ]
    const events = [...stages, ...noted].sort((a, b) => a.atMs - b.atMs)
    await keepDay(store, {
      title: `Marl, day ${days - ago}`,
      planId,
      plan: ROOT_PLAN,
      potId: 'heron',
      probe: 'heron',
      dryKg: 0.5,
      readings: day.trace.readings
        .filter((_, i) => i % 5 === 0)
        .map(({ atMs, tempC }) => ({ atMs: startMs + atMs, rawC: tempC })),
      events: [...events, { atMs: startMs + day.end.atS * 1000, event: { kind: 'end' } }],
    })
  }
  await store.close()
  return folder
}
