import type { AlarmMessage } from '#core/wire/live'
import type { Urgency } from '#core/plan/alarm-names'

const RANK: Readonly<Record<Urgency, number>> = { 'at-once': 0, soon: 1, morning: 2, log: 3 }

/** Nobody has said "I'm there" yet. */
export const isUnanswered = (alarm: AlarmMessage): boolean =>
  alarm.state === 'unacknowledged' || alarm.state === 'returned-unacknowledged'

const weight = (a: AlarmMessage): number => (isUnanswered(a) ? 0 : 10) + RANK[a.urgency]

/** The most pressing first: unanswered before answered, then by urgency, then the newest. */
export function byPressing(alarms: readonly AlarmMessage[]): readonly AlarmMessage[] {
  return [...alarms].sort((a, b) => weight(a) - weight(b) || b.id - a.id)
}

/** Those of one pot that a person should look at now. */
export const alarmsOf = (alarms: readonly AlarmMessage[], potId: string): readonly AlarmMessage[] =>
  byPressing(alarms.filter((a) => a.pot === potId && a.urgency !== 'log'))

/** How a whole card or page should look: the most pressing alarm that stands. */
export function pressingUrgency(alarms: readonly AlarmMessage[]): Urgency | null {
  const standing = alarms.filter((a) => a.state !== 'shelved' && a.urgency !== 'log')
  return byPressing(standing)[0]?.urgency ?? null
}
