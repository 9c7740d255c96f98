import { emptyDesk, stepDesk } from '#core/watch/alarm-desk'
import type { AlarmHappening } from '#core/watch/happening'
import { stageOutcomes, startStove, stepStove } from '#core/watch/stove'
import type { StoveInput } from '#core/watch/stove-input'
import { alarmText } from '#core/words/alarm-text'
import type { Person } from '#core/words/person'
import type { Store } from '../store/store.ts'
import type { DayToKeep } from './keep-day.ts'
import { DYER, type DemoPot } from './studio.ts'

/** Somebody came half a minute after each call. */
const ANSWER_MS = 30_000

/** Judges a kept day with the same watch as a live one, and keeps what its stages came to and its alarms. */
export async function judgeDay(
  store: Store,
  batchId: number,
  day: DayToKeep,
  look: { readonly pot: DemoPot; readonly person: Person },
): Promise<void> {
  let state = startStove()
  const alarms: AlarmHappening[] = []
  for (const input of inputsOf(day, batchId, look.pot)) {
    const step = stepStove(state, input)
    state = step.state
    for (const happening of step.happenings) if (happening.kind === 'alarm') alarms.push(happening)
  }
  const runs = (await store.batches.get(batchId))?.stages ?? []
  for (const outcome of stageOutcomes(state, day.potId, state.atMs)) {
    const run = runs.find((r) => r.stageId === outcome.id)
    if (run !== undefined) await store.batches.setOutcome(run.id, outcome)
  }
  const say = (happening: AlarmHappening) =>
    alarmText(happening, { pots: { [day.potId]: look.pot.title } }, look.person)
  await keepAlarms(store, batchId, alarms, say)
}

function inputsOf(day: DayToKeep, batchId: number, pot: DemoPot): readonly StoveInput[] {
  const { potId, probe, plan } = day
  const atMs = day.events[0]!.atMs
  const begin: StoveInput[] = [
    { kind: 'pot', atMs, potId, pot },
    { kind: 'assign', atMs, probe, potId, use: 'on' },
    { kind: 'batch', atMs, potId, batchId, plan, dryWeightG: day.dryKg * 1000 },
  ]
  const events = day.events.map((e): StoveInput => ({ kind: 'event', atMs: e.atMs, potId, event: e.event }))
  const readings = day.readings.map(({ atMs: at, rawC }): StoveInput => {
    const reading = { kind: 'temp' as const, probe, atMs: at, rawC, tempC: rawC, verdict: 'good' as const }
    return { kind: 'reading', atMs: at, reading }
  })
  return [...begin, ...[...events, ...readings].sort((a, b) => a.atMs - b.atMs)]
}

async function keepAlarms(
  store: Store,
  batchId: number,
  alarms: readonly AlarmHappening[],
  say: (happening: AlarmHappening) => string,
): Promise<void> {
  let desk = { ...emptyDesk, nextAlarmId: (await store.alarms.lastId()) + 1 }
  const texts = new Map<number, string>()
  for (const happening of alarms) {
    const alarmId = desk.nextAlarmId
    desk = stepDesk(desk, { kind: 'happening', happening, late: false }).desk
    if (happening.change !== 'raised') continue
    texts.set(alarmId, say(happening))
    const act = { kind: 'acknowledge', atMs: happening.atMs + ANSWER_MS, who: DYER } as const
    desk = stepDesk(desk, { kind: 'act', alarmId, act }).desk
  }
  for (const entry of desk.entries)
    await store.alarms.put({ entry, batchId, text: texts.get(entry.alarmId) ?? say(entry.happening) })
}
