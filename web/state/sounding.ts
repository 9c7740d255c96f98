import { EVENING_STEPS } from '#core/bath/learning-evening'
import type { EveningLive } from '#core/watch/pot-numbers'
import type { AlarmMessage, NoticeMessage } from '#core/wire/live'
import type { NoticeName } from '#core/plan/alarm-names'
import { troubleOf } from './alarm-trouble.ts'
import { isUnanswered } from './open-alarms.ts'
import type { StoveState } from './stove-state.ts'

/** What should be heard. A loop goes on until the state changes; a tone is heard once for its `key`. */
export type Sounding =
  | { readonly kind: 'loop'; readonly rhythm: 'at-once' | 'server-silent' }
  | { readonly kind: 'tone'; readonly rhythm: 'soon' | 'notice'; readonly key: string }
  | { readonly kind: 'quiet' }

/** Notices that a dyer waits for; the others are only shown. */
const TONE_NOTICES: ReadonlySet<NoticeName> = new Set([
  'at-window',
  'turn-down-now',
  'hold-done',
  'turn-due',
  'out-by-due',
  'cool-enough',
])

/** A notice older than this is not called out any more (a page that comes back after lunch), ms. */
const NOTICE_AGE_MS = 60_000

/** @param nowMs the server's clock, Unix ms. */
export function soundingOf(stove: StoveState, nowMs: number): Sounding {
  if (stove.silent) return { kind: 'loop', rhythm: 'server-silent' }
  const standing = stove.alarms.filter((a) => a.state === 'unacknowledged')
  if (standing.some((a) => a.urgency === 'at-once')) return { kind: 'loop', rhythm: 'at-once' }
  const soon = Math.max(
    ...standing.filter((a) => a.urgency === 'soon').map((a) => beganWith(a, stove.alarms)),
  )
  if (soon > -Infinity) return { kind: 'tone', rhythm: 'soon', key: `alarm-${soon}` }
  const step = stove.pots?.find(({ evening }) => evening && isCalling(evening))
  if (step !== undefined)
    return { kind: 'tone', rhythm: 'soon', key: `evening-${step.potId}-${step.evening?.step}` }
  const notice = stove.notices.find((n) => isWorthATone(n, nowMs))
  return notice === undefined
    ? { kind: 'quiet' }
    : { kind: 'tone', rhythm: 'notice', key: `notice-${notice.id}` }
}

/** A new step wants a hand at the burner. At the first one the person has just begun and stands there. */
const isCalling = ({ step, isSet }: EveningLive): boolean => !isSet && step !== EVENING_STEPS[0]

const isWorthATone = (notice: NoticeMessage, nowMs: number): boolean =>
  TONE_NOTICES.has(notice.notice) && nowMs - Date.parse(notice.at) < NOTICE_AGE_MS

/**
 * The alarm with which this trouble of this pot began, by its id: a bath that heads out of its window and then
 * is out of it has called already. Once somebody has been there, the next alarm is news again.
 */
const beganWith = (alarm: AlarmMessage, all: readonly AlarmMessage[]): number =>
  Math.min(
    ...all
      .filter((a) => isUnanswered(a) && a.urgency !== 'log')
      .filter((a) => a.pot === alarm.pot && troubleOf(a.alarm) === troubleOf(alarm.alarm))
      .map((a) => a.alarmId),
  )
