import type { Stage } from '#core/plan/plan'
import type { AlarmEntry } from '#core/watch/alarm-entry'
import type { NoticeHappening } from '#core/watch/happening'
import type { Night, NightCooling, NightStage } from '#core/watch/morning-night'
import type { NoticeMessage } from '#core/wire/live'
import type { StageRun } from '#core/wire/records'
import type { StoredBatch } from '../store/batches.ts'
import { type NightRange, nightGaps } from './night-gaps.ts'
import type { Studio } from './studio.ts'

/** More batches than this don't fit on a stove in one night, nor into one answer. */
const MOST_BATCHES = 60
const MOST_ALARMS = 1000
/** For so long after it rang, a bath is still held against this morning's alarm clock, ms. */
const MORNING_MS = 4 * 3_600_000

/** Everything the record holds of a stretch of time that a morning page speaks of, and the batches of it. */
export async function nightOf(
  studio: Studio,
  range: NightRange,
): Promise<{ readonly night: Night; readonly batches: readonly StoredBatch[] }> {
  const batches = await batchesOf(studio, range)
  const runs = batches.flatMap((batch) =>
    batch.stages.filter((run) => isIn(run, range)).map((run) => ({ batch, run })),
  )
  const notices = await noticesOf(studio, range)
  const night: Night = {
    ...range,
    alarms: await alarmsOf(studio, range),
    notices,
    stages: runs.map(({ batch, run }) => nightStage(studio, batch, run, notices)),
    gaps: await nightGaps(
      studio.store.readings,
      runs.map(({ run }) => run),
      range,
    ),
    probes: await probesOf(studio),
  }
  return { night, batches }
}

const isIn = (run: StageRun, { fromMs, toMs }: NightRange): boolean =>
  run.startedMs < toMs && (run.endedMs === null || run.endedMs > fromMs)

async function batchesOf({ store }: Studio, range: NightRange): Promise<readonly StoredBatch[]> {
  const batches: StoredBatch[] = []
  for (const { id, state, bathOf } of await store.batches.list({ limit: MOST_BATCHES })) {
    // A lot has no stages of its own: its bath is told of once.
    const batch = state === 'planned' || bathOf !== null ? null : await store.batches.get(id)
    if (batch?.stages.some((run) => isIn(run, range))) batches.push(batch)
  }
  return batches
}

/** Those raised in the night, and those that stood before and in it. */
async function alarmsOf({ store, teller }: Studio, range: NightRange): Promise<readonly AlarmEntry[]> {
  const stored = await store.alarms.list({ limit: MOST_ALARMS, sinceMs: range.fromMs })
  const byId = new Map(stored.map(({ entry }) => [entry.alarmId, entry]))
  for (const entry of teller.desk.entries)
    if (entry.clearedMs === null || entry.clearedMs >= range.fromMs) byId.set(entry.alarmId, entry)
  return [...byId.values()].filter((e) => e.sinceMs < range.toMs).sort((a, b) => a.alarmId - b.alarmId)
}

async function noticesOf({ store }: Studio, range: NightRange): Promise<readonly NoticeHappening[]> {
  const messages = await store.messages.since(range.fromMs)
  return messages
    .flatMap((m) => (m.kind === 'notice' ? [happeningOf(m.message)] : []))
    .filter((n) => n.atMs < range.toMs)
}

const happeningOf = ({ notice, pot, stage, at, tempC }: NoticeMessage): NoticeHappening => ({
  kind: 'notice',
  notice,
  potId: pot,
  stageId: stage,
  atMs: Date.parse(at),
  tempC,
})

function nightStage(
  studio: Studio,
  batch: StoredBatch,
  run: StageRun,
  notices: readonly NoticeHappening[],
): NightStage {
  const stage = batch.plan.stages.find((s) => s.id === run.stageId)
  const { potId, stageId, startedMs, endedMs } = run
  const empty = { id: stageId, startedMs, endedMs: endedMs ?? studio.clock.nowMs() }
  const outcome = run.outcome ?? { ...empty, bins: null, minC: null, maxC: null, doneMs: null }
  return {
    potId,
    batchId: batch.id,
    stageId,
    // A hold that still runs has not fallen short of anything.
    outcome: endedMs === null ? { ...outcome, bins: null } : outcome,
    windowC: stage?.kind === 'hold' ? stage.windowC : null,
    cooling: coolingOf(studio, run, stage, notices),
  }
}

/** A running cool-down as the watch fits it; of an ended one, when it was told to be cool enough. */
function coolingOf(
  { watching, wake, clock }: Studio,
  { potId, stageId, endedMs }: StageRun,
  stage: Stage | undefined,
  notices: readonly NoticeHappening[],
): NightCooling | null {
  if (stage?.kind !== 'cool') return null
  const told = notices.findLast(
    (n) => n.notice === 'cool-enough' && n.potId === potId && n.stageId === stageId,
  )
  // An ended one that was never told to be cool enough was lifted warm or ended by hand: nothing to wait for.
  if (endedMs !== null && told === undefined) return null
  const fitted =
    endedMs === null ? watching.coolings(potId).findLast((c) => c.stageId === stageId) : undefined
  const rings = endedMs === null ? wake.wake(clock.nowMs() - MORNING_MS) : null
  return {
    coolToC: stage.coolToC,
    reachedMs: fitted?.reachedMs ?? told?.atMs ?? null,
    lastC: endedMs === null ? watching.numbers(potId).tempC : null,
    timesAsFast: fitted?.timesAsFast ?? null,
    lift: rings === null ? null : watching.liftTime(potId, rings),
  }
}

/** Probes that hang in a pot, with the date of their newest correction. */
async function probesOf({ store, stove }: Studio) {
  const corrections = await store.probes.corrections()
  const known = new Map((await store.probes.list()).map((p) => [p.name, p.firstSeenMs]))
  return stove.all.flatMap(({ pot: { probe } }) => {
    if (probe === null) return []
    const dates = corrections.filter((c) => c.probe === probe).map((c) => c.madeMs)
    const knownMs = known.get(probe) ?? 0
    return [{ probe, knownMs, checkedMs: dates.length === 0 ? null : Math.max(...dates) }]
  })
}
