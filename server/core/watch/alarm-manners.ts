import type { AlarmName } from '../plan/alarm-names.ts'
import { ALARM_DEFAULTS, type AlarmTiming, isInService, timingOf } from './alarm-defaults.ts'
import type { WatchSettings } from './watch-settings.ts'

/** How each alarm is judged under these settings and this plan. */
export type AlarmManners = Readonly<
  Record<AlarmName, { readonly timing: AlarmTiming; readonly inService: boolean }>
>

type PlanAlarms = WatchSettings['alarms']

const NO_PLAN = {}
/** Settings and plans never change in place, so this is worked out once for each pair and not at each reading. */
const worked = new WeakMap<WatchSettings, WeakMap<object, AlarmManners>>()

export function mannersOf(settings: WatchSettings, plan: PlanAlarms): AlarmManners {
  const ofSettings = worked.get(settings) ?? new WeakMap<object, AlarmManners>()
  worked.set(settings, ofSettings)
  const known = ofSettings.get(plan ?? NO_PLAN)
  if (known !== undefined) return known
  const names = Object.keys(ALARM_DEFAULTS) as AlarmName[]
  const manners = Object.fromEntries(
    names.map((alarm) => [
      alarm,
      { timing: timingOf(alarm, settings, plan), inService: isInService(alarm, settings, plan) },
    ]),
  ) as AlarmManners
  ofSettings.set(plan ?? NO_PLAN, manners)
  return manners
}
