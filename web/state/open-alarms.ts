import type { AlarmMessage } from '#core/wire/live'
import type { Urgency } from '#core/plan/alarm-names'

const RANK: Readonly<Record<Urgency, number>> = { 'at-once': 0, soon: 1, morning: 2, log: 3 }

/** Nobody has said "I'm there" yet. */
export const isUnanswered = (alarm: AlarmMessage): boolean =>
  alarm.state === 'unacknowledged' || alarm.state === 'returned-unacknowledged'

/** Unanswered before answered, then by urgency, then what stands before what went back by itself. */
const weight = (a: AlarmMessage): number =>
  (isUnanswered(a) ? 0 : 100) + 10 * RANK[a.urgency] + (a.state === 'returned-unacknowledged' ? 1 : 0)

const morePressing = (a: AlarmMessage, b: AlarmMessage): number => weight(a) - weight(b) || b.id - a.id

/** The most pressing first; of equals the newest. */
export const byPressing = (alarms: readonly AlarmMessage[]): readonly AlarmMessage[] =>
  [...alarms].sort(morePressing)

/** What one pot asks for: a bath that drifts off raises several alarms, and they are one errand. */
export interface PotAsks {
  readonly potId: string
  /** The one alarm to show and to say. */
  readonly first: AlarmMessage
  /** The rest, the most pressing first. */
  readonly others: readonly AlarmMessage[]
  /** What "I'm there" answers: every alarm of the pot that nobody has answered. */
  readonly unanswered: readonly AlarmMessage[]
}

/** The pots that ask for somebody, the most pressing first; alarms that are only noted don't ask. */
export function potsAsking(alarms: readonly AlarmMessage[]): readonly PotAsks[] {
  const pressing = byPressing(alarms.filter((a) => a.urgency !== 'log'))
  // A set keeps the order in which its values came, so the pots stand by their most pressing alarms.
  return [...new Set(pressing.map((a) => a.pot))].flatMap((potId) => {
    const [first, ...others] = pressing.filter((a) => a.pot === potId)
    if (first === undefined) return []
    return [{ potId, first, others, unanswered: [first, ...others].filter(isUnanswered) }]
  })
}

export const asksOf = (alarms: readonly AlarmMessage[], potId: string): PotAsks | null =>
  potsAsking(alarms).find((asks) => asks.potId === potId) ?? null

/** How a whole card or page should look: by what presses and is not shelved. */
export function pressingUrgency(asks: PotAsks | null): Urgency | null {
  if (asks === null) return null
  return [asks.first, ...asks.others].find((a) => a.state !== 'shelved')?.urgency ?? null
}
