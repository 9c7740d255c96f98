import type { AlarmName, AlarmSetting } from '../plan/alarm-names.ts'

/** What the dyer may set for all pots; what is left out keeps its default. A plan's own settings win. */
export interface WatchSettings {
  readonly alarms?: Readonly<Partial<Record<AlarmName, AlarmSetting>>>
}
