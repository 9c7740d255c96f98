import type { AlarmMessage } from '#core/wire/live'

/**
 * How much a lamp has to say. 0 quiet; 1 something stands or went unseen, nobody needs to run; 2 soon; 3 at
 * once; 4 at once and nobody has answered for a minute, or nobody else could be called at all.
 */
export type LampLevel = 0 | 1 | 2 | 3 | 4

/** What a pot's lamp topic holds. `alarm` and `text` are those of its worst alarm; times ISO 8601. */
export interface LampState {
  readonly level: LampLevel
  readonly alarm: AlarmMessage['alarm'] | null
  readonly urgency: AlarmMessage['urgency'] | null
  readonly state: AlarmMessage['state']
  readonly sinceAt: string | null
  readonly text: string
  /** How many alarms of this pot stand or wait to be looked at. */
  readonly alarms: number
}

export const QUIET: LampState = {
  level: 0,
  alarm: null,
  urgency: null,
  state: 'normal',
  sinceAt: null,
  text: '',
  alarms: 0,
}

/** The state of one pot's lamp. `loud`: alarms for which every means is tried. */
export function lampState(alarms: readonly AlarmMessage[], loud: ReadonlySet<number>): LampState {
  const shown = alarms
    .map((message) => ({ message, level: levelOf(message, loud) }))
    .filter(({ level }) => level > 0)
    .sort((a, b) => b.level - a.level || a.message.alarmId - b.message.alarmId)
  const worst = shown[0]
  if (worst === undefined) return QUIET
  const { alarm, urgency, state, sinceAt, text } = worst.message
  return { level: worst.level, alarm, urgency, state, sinceAt, text, alarms: shown.length }
}

function levelOf(message: AlarmMessage, loud: ReadonlySet<number>): LampLevel {
  if (message.urgency === 'morning' || message.urgency === 'log') return 0
  switch (message.state) {
    case 'unacknowledged':
      return message.urgency === 'soon' ? 2 : loud.has(message.alarmId) ? 4 : 3
    case 'acknowledged':
    case 'returned-unacknowledged':
      return 1
    case 'normal':
    case 'shelved':
    case 'out-of-service':
      return 0
    default:
      return message.state satisfies never
  }
}
