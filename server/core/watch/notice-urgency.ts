import type { NoticeName, Urgency } from '../plan/alarm-names.ts'

/**
 * How a notice reaches people: `soon` makes one tone, `log` is a mark on the trace. None is `at-once`: what
 * must be done this minute is an alarm.
 */
export function noticeUrgency(notice: NoticeName): Urgency {
  switch (notice) {
    case 'at-window':
    case 'turn-down-now':
    case 'hold-done':
    case 'turn-due':
    case 'out-by-due':
    case 'cool-enough':
      return 'soon'
    case 'stage-started':
    case 'hold-started':
    case 'hold-paused':
    case 'hold-resumed':
    case 'probe-back':
      return 'log'
    default:
      return notice satisfies never
  }
}
