import type { Urgency } from '../plan/alarm-names.ts'
import { actOn } from './alarm-act.ts'
import { type AlarmEntry, isSamePoint, living, withEntries } from './alarm-entry.ts'
import { type LifeAct, NORMAL, afterFact } from './alarm-life.ts'
import type { AlarmHappening } from './happening.ts'

/** All alarms that are known, in the order they were raised. Old ones leave by `forgetBefore`. */
export interface AlarmDesk {
  readonly entries: readonly AlarmEntry[]
  readonly nextAlarmId: number
}

/** What can happen at the desk. `late`: from readings that are too old to sound for. */
export type DeskInput =
  | { readonly kind: 'happening'; readonly happening: AlarmHappening; readonly late: boolean }
  | { readonly kind: 'act'; readonly alarmId: number; readonly act: LifeAct }
  | { readonly kind: 'tick'; readonly atMs: number }

/** `succeeded`: an older entry gave its life to a newer one; to be stored, not told. */
export type DeskChangeKind =
  | 'succeeded'
  | 'raised'
  | 'cleared'
  | 'worsened'
  | 'reminded'
  | 'acknowledged'
  | 'shelved'
  | 'unshelved'
  | 'out-of-service'
  | 'in-service'

/** One thing to store and to tell. `atMs`: when it happened, Unix ms. */
export interface DeskChange {
  readonly change: DeskChangeKind
  readonly atMs: number
  readonly entry: AlarmEntry
}

/** The next desk and what changed, in order; `refused`: one sentence when a person's act was not possible. */
export interface DeskStep {
  readonly desk: AlarmDesk
  readonly changes: readonly DeskChange[]
  readonly refused: string | null
}

export const emptyDesk: AlarmDesk = { entries: [], nextAlarmId: 1 }

/** Next desk. Pure: the only times it knows are those in the input. */
export function stepDesk(desk: AlarmDesk, input: DeskInput): DeskStep {
  switch (input.kind) {
    case 'happening':
      return input.happening.change === 'cleared'
        ? clear(desk, input.happening)
        : raise(desk, input.happening, input.late)
    case 'act':
      return act(desk, input.alarmId, input.act)
    case 'tick':
      return tick(desk, input.atMs)
    default:
      return input satisfies never
  }
}

const unchanged = (desk: AlarmDesk): DeskStep => ({ desk, changes: [], refused: null })

/**
 * The entry that a happening speaks of: the one that stood at that moment; one that ended in it is over. A day folded again after a
 * restart so meets the rows that were already stored, even where late readings moved `sinceMs` a little.
 */
const entryAt = (desk: AlarmDesk, h: AlarmHappening): AlarmEntry | undefined =>
  desk.entries.find(
    (e) =>
      isSamePoint(e, h) &&
      (e.clearedMs === null || e.raisedMs === h.atMs || (e.sinceMs <= h.atMs && h.atMs < e.clearedMs)),
  )

function raise(desk: AlarmDesk, happening: AlarmHappening, late: boolean): DeskStep {
  const known = entryAt(desk, happening)
  if (known !== undefined) return hearAgain(desk, known, happening)
  const entry = entryOf(desk.nextAlarmId, happening, late)
  const grown: AlarmDesk = { entries: [...desk.entries, entry], nextAlarmId: desk.nextAlarmId + 1 }
  if (!late) return changed(grown, calling(desk, entry, happening.atMs))
  return changed(grown, [{ change: 'raised', atMs: happening.atMs, entry }])
}

/**
 * A new entry takes over the life of the one before it: a shelf stays a shelf, and there is one thing to
 * acknowledge, not two.
 */
function calling(desk: AlarmDesk, entry: AlarmEntry, atMs: number): readonly DeskChange[] {
  const before = desk.entries.findLast((e) => e.alarmId !== entry.alarmId && isSamePoint(e, entry))
  const life = afterFact(before?.life ?? NORMAL, { kind: 'raised', atMs })
  const called: DeskChange = { change: 'raised', atMs, entry: { ...entry, foundLate: false, life } }
  if (before === undefined || before.life.kind === 'normal') return [called]
  return [{ change: 'succeeded', atMs, entry: { ...before, life: NORMAL } }, called]
}

function entryOf(alarmId: number, happening: AlarmHappening, foundLate: boolean): AlarmEntry {
  const { alarm, potId, stageId, urgency, sinceMs, atMs: raisedMs } = happening
  return {
    alarmId,
    alarm,
    potId,
    stageId,
    urgency,
    sinceMs,
    raisedMs,
    clearedMs: null,
    acknowledgedMs: null,
    acknowledgedBy: null,
    foundLate,
    life: NORMAL,
    happening,
  }
}

const RANK: Readonly<Record<Urgency, number>> = { log: 0, morning: 1, soon: 2, 'at-once': 3 }

/** An alarm that stands already: only a higher urgency is news, and it wants its person again. */
function hearAgain(desk: AlarmDesk, known: AlarmEntry, happening: AlarmHappening): DeskStep {
  if (known.clearedMs !== null || RANK[happening.urgency] <= RANK[known.urgency]) return unchanged(desk)
  const life = afterFact(known.life, { kind: 'worsened', atMs: happening.atMs })
  const entry = { ...living(known, life), urgency: happening.urgency, happening }
  return changed(desk, [{ change: 'worsened', atMs: happening.atMs, entry }])
}

function clear(desk: AlarmDesk, happening: AlarmHappening): DeskStep {
  const own = desk.entries.filter((e) => isSamePoint(e, happening))
  if (own.some((e) => e.clearedMs === happening.atMs)) return unchanged(desk)
  const standing = own.find((e) => e.clearedMs === null)
  if (standing === undefined || happening.atMs < standing.raisedMs) return unchanged(desk)
  return changed(desk, [clearing(standing, happening.atMs, happening)])
}

function clearing(entry: AlarmEntry, atMs: number, happening: AlarmHappening): DeskChange {
  const life = afterFact(entry.life, { kind: 'cleared', atMs })
  return { change: 'cleared', atMs, entry: { ...entry, clearedMs: atMs, life, happening } }
}

function act(desk: AlarmDesk, alarmId: number, done: LifeAct): DeskStep {
  const known = desk.entries.find((e) => e.alarmId === alarmId)
  if (known === undefined)
    return { desk, changes: [], refused: `there is no alarm with the number ${alarmId}` }
  const step = actOn(known, done)
  if (!step.ok) return { desk, changes: [], refused: step.why }
  return changed(desk, [{ change: step.change, atMs: done.atMs, entry: step.entry }])
}

/**
 * Somebody said "I'm there" and a quarter of an hour later the bath is as it was: they may have gone back to
 * sleep. The idea is the re-alarm time of OPC 10000-9 (UA Part 9); the figure is our choice.
 */
const REMIND_MS = 15 * 60_000
const isForgotten = ({ life, urgency }: AlarmEntry, atMs: number): boolean =>
  life.kind === 'acknowledged' && urgency === 'at-once' && atMs - life.sinceMs >= REMIND_MS

/** Shelves that end, acknowledged alarms that nothing was done about, and alarms found late that stand to this moment and so must be called after all. */
function tick(desk: AlarmDesk, atMs: number): DeskStep {
  const changes = desk.entries.flatMap((entry): DeskChange[] => {
    if (entry.foundLate && entry.clearedMs === null) return [...calling(desk, entry, atMs)]
    if (isForgotten(entry, atMs)) {
      const life = afterFact(entry.life, { kind: 'worsened', atMs })
      return [{ change: 'reminded', atMs, entry: living(entry, life) }]
    }
    const life = afterFact(entry.life, { kind: 'tick', atMs })
    return life === entry.life ? [] : [{ change: 'unshelved', atMs, entry: living(entry, life) }]
  })
  return changes.length === 0 ? unchanged(desk) : changed(desk, changes)
}

const changed = (desk: AlarmDesk, changes: readonly DeskChange[]): DeskStep => ({
  desk: { ...desk, entries: withEntries(desk.entries, ...changes.map((c) => c.entry)) },
  changes,
  refused: null,
})

/**
 * After a day was folded again: stored alarms that stand although the fold does not have them any more
 * (late readings took their ground away) end now, so that none stands for ever.
 */
export function endUnfounded(desk: AlarmDesk, founded: readonly AlarmHappening[], atMs: number): DeskStep {
  const groundless = desk.entries.filter(
    (e) => e.clearedMs === null && !founded.some((h) => isSamePoint(e, h)),
  )
  return changed(
    desk,
    groundless.map((e) => clearing(e, atMs, e.happening)),
  )
}
