import type { AlarmName } from '../../plan/alarm-names.ts'
import type { AlarmTiming } from '../alarm-defaults.ts'
import type { PotView } from '../pot-view.ts'
import type { Finding } from '../standing.ts'

/** One alarm. `judge` says `null` where the alarm has no meaning: another kind of stage, no limit set. */
export interface AlarmRule {
  readonly alarm: AlarmName
  judge(view: PotView, timing: AlarmTiming): Finding | null
}

export const UNKNOWN: Finding = { is: 'unknown' }
export const OFF: Finding = { is: 'off' }
export const BETWEEN: Finding = { is: 'between' }
