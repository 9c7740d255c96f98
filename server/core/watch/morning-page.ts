import type { AlarmName, NoticeName, Urgency } from '../plan/alarm-names.ts'
import type { HoldBins } from '../plan/outcome.ts'
import type { AlarmEntry } from './alarm-entry.ts'
import type { AlarmReason, NoticeHappening } from './happening.ts'
import type { LiftTime } from './lift-time.ts'
import type { Night, NightGap, NightProbe, NightStage } from './morning-night.ts'

/** What the morning page says, most urgent first. `core/words` makes the sentences. */
export type MorningItem =
  | MorningAlarm
  | {
      readonly kind: 'hold-short'
      readonly potId: string
      readonly batchId: number | null
      readonly stageId: string
      readonly bins: HoldBins
      readonly minC: number | null
      readonly maxC: number | null
      readonly windowC: readonly [low: number, high: number]
    }
  /** How many times as fast as planned the bath cooled: above 1 faster. */
  | {
      readonly kind: 'cooled-unlike-plan'
      readonly potId: string
      readonly batchId: number | null
      readonly stageId: string
      readonly timesAsFast: number
      readonly reason: AlarmReason | null
    }
  | {
      readonly kind: 'cooled'
      readonly potId: string
      readonly batchId: number | null
      readonly stageId: string
      readonly coolToC: number
      readonly reachedMs: number | null
      readonly lastC: number | null
      readonly lift?: LiftTime | null
    }
  | ({ readonly kind: 'gap' } & NightGap)
  | { readonly kind: 'notice'; readonly notice: NoticeName; readonly potId: string; readonly atMs: number }
  | ({ readonly kind: 'probe-check-due' } & NightProbe)

/** The same alarm of the same pot in the same stage, however often it came. */
export interface MorningAlarm {
  readonly kind: 'alarm'
  readonly alarm: AlarmName
  readonly urgency: Urgency
  readonly potId: string
  readonly stageId: string | null
  readonly times: number
  readonly firstSinceMs: number
  /** `null`: it stands still. */
  readonly lastClearedMs: number | null
  /** The farthest it went, °C. */
  readonly peakC: number | null
  readonly limitC: number | null
  readonly isAcknowledged: boolean
}

export interface MorningPage {
  readonly fromMs: number
  readonly toMs: number
  readonly items: readonly MorningItem[]
  /** The night asks for no act; a probe that wants comparing has time. */
  readonly isQuiet: boolean
}

/** Cooling under this many times the planned rate, or over it, is worth a line (our choice, no source). */
const LIKE_PLAN = 1.5
/** Gaps up to this belong to the trace alone; the same figure as in the hold's bins. */
const SHORT_GAP_MS = 60_000
const DAY_MS = 86_400_000
/** A probe wants comparing twice a year (common practice, no source). */
const CHECK_EVERY_MS = 182 * DAY_MS

/** What is worth reading in the morning, in the order in which it matters. */
export function morningPage(night: Night): MorningPage {
  const alarms = alarmsOf(night.alarms)
  const items: readonly MorningItem[] = [
    ...alarms,
    ...night.stages.flatMap(holdShort),
    ...night.stages.flatMap(cooledUnlikePlan),
    ...night.stages.flatMap(cooled),
    ...night.gaps.filter((gap) => gap.toMs - gap.fromMs > SHORT_GAP_MS).map(gapItem),
    ...night.notices.filter((n) => TO_DO.has(n.notice)).map(noticeItem),
    ...night.probes.filter((p) => isCheckDue(p, night.toMs)).map(probeItem),
  ]
  const isQuiet = !items.some((item) => item.kind !== 'cooled' && item.kind !== 'probe-check-due')
  return { fromMs: night.fromMs, toMs: night.toMs, items, isQuiet }
}

/**
 * Notices that leave something to do in the morning; what a hold or a cool-down came to is said by its own line, and
 * a turn that was due in the night can't be made up.
 */
const TO_DO: ReadonlySet<NoticeName> = new Set(['out-by-due'])

const gapItem = (gap: NightGap): MorningItem => ({ kind: 'gap', ...gap })
const probeItem = (probe: NightProbe): MorningItem => ({ kind: 'probe-check-due', ...probe })
const noticeItem = ({ notice, potId, atMs }: NoticeHappening): MorningItem => ({
  kind: 'notice',
  notice,
  potId,
  atMs,
})

/** On the first morning that it is due, and then on one in seven: a line that stands there each day is read by nobody. */
function isCheckDue({ checkedMs, knownMs }: NightProbe, nowMs: number): boolean {
  const dueMs = checkedMs === null ? knownMs : checkedMs + CHECK_EVERY_MS
  return nowMs >= dueMs && Math.floor((nowMs - dueMs) / DAY_MS) % 7 === 0
}

function holdShort({ potId, batchId, stageId, outcome, windowC }: NightStage): readonly MorningItem[] {
  const { bins, minC, maxC } = outcome
  if (bins === null || windowC === null || bins.inWindowS >= bins.requiredS) return []
  return [{ kind: 'hold-short', potId, batchId, stageId, bins, minC, maxC, windowC }]
}

function cooledUnlikePlan({ potId, batchId, stageId, cooling }: NightStage): readonly MorningItem[] {
  const timesAsFast = cooling?.timesAsFast ?? null
  if (timesAsFast === null) return []
  if (timesAsFast < LIKE_PLAN && timesAsFast > 1 / LIKE_PLAN) return []
  const reason: AlarmReason | null = timesAsFast > 1 ? 'lid-off' : null
  return [{ kind: 'cooled-unlike-plan', potId, batchId, stageId, timesAsFast, reason }]
}

function cooled({ potId, batchId, stageId, cooling }: NightStage): readonly MorningItem[] {
  if (cooling === null) return []
  const { timesAsFast: _said, ...rest } = cooling
  return [{ kind: 'cooled', potId, batchId, stageId, ...rest }]
}

const ORDER: readonly Urgency[] = ['at-once', 'soon', 'morning']

/** All that called or would have waited for the morning; what is for the log alone stays in the log. */
function alarmsOf(entries: readonly AlarmEntry[]): readonly MorningAlarm[] {
  const groups = new Map<string, readonly AlarmEntry[]>()
  for (const entry of entries.filter((e) => e.urgency !== 'log')) {
    const key = `${entry.potId} ${entry.stageId ?? ''} ${entry.alarm}`
    groups.set(key, [...(groups.get(key) ?? []), entry])
  }
  return [...groups.values()].map(together).sort(byUrgency)
}

const byUrgency = (a: MorningAlarm, b: MorningAlarm): number =>
  ORDER.indexOf(a.urgency) - ORDER.indexOf(b.urgency) || a.firstSinceMs - b.firstSinceMs

function together(entries: readonly AlarmEntry[]): MorningAlarm {
  const { alarm, potId, stageId, happening } = entries[0]!
  const cleared = entries.map((e) => e.clearedMs)
  return {
    kind: 'alarm',
    alarm,
    urgency: ORDER.find((u) => entries.some((e) => e.urgency === u)) ?? 'morning',
    potId,
    stageId,
    times: entries.length,
    firstSinceMs: Math.min(...entries.map((e) => e.sinceMs)),
    lastClearedMs: cleared.some((ms) => ms === null) ? null : Math.max(...cleared.map(Number)),
    peakC: farthest(entries),
    limitC: happening.limitC,
    isAcknowledged: entries.every((e) => e.life.kind === 'normal' || e.life.kind === 'acknowledged'),
  }
}

/** The highest peak, or the lowest for an alarm that is about too little heat. */
function farthest(entries: readonly AlarmEntry[]): number | null {
  const peaks = entries.flatMap((e) => (e.happening.peakC === null ? [] : [e.happening.peakC]))
  if (peaks.length === 0) return null
  return entries[0]!.alarm === 'below-window' ? Math.min(...peaks) : Math.max(...peaks)
}
