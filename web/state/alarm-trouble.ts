import type { AlarmName } from '#core/plan/alarm-names'

/** What is the matter with a pot. Alarms of one trouble follow one another while it lasts. */
export type Trouble = 'too-warm' | 'too-cool' | 'probe' | 'several-pots'

export function troubleOf(alarm: AlarmName): Trouble {
  switch (alarm) {
    case 'above-window':
    case 'above-ceiling':
    case 'heading-above-window':
    case 'heading-above-ceiling':
    case 'heating-too-fast':
    case 'not-cooling':
    case 'unplanned-heating':
    case 'near-boil':
    case 'boil-dry':
      return 'too-warm'
    case 'below-window':
    case 'cooling-too-fast':
    case 'no-heat':
      return 'too-cool'
    case 'probe-silent':
    case 'probe-out':
    case 'probe-stuck':
    case 'probe-fault':
      return 'probe'
    case 'wrong-burner':
    case 'probes-swapped':
    case 'power-lost':
    case 'bridge-lost':
      return 'several-pots'
    default:
      return alarm satisfies never
  }
}
