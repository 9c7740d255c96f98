import { type AlarmName, type AlarmSetting, NEVER_SHELVED } from './alarm-names.ts'

/** What a plan or the settings may not change of an alarm, one sentence a fault. */
export const checkAlarms = (
  alarms: Readonly<Partial<Record<AlarmName, AlarmSetting>>> = {},
): readonly string[] =>
  Object.entries(alarms).flatMap(([name, setting]) => checkAlarm(name as AlarmName, setting))

/**
 * Longest delay, seconds, and widest deadband, °C, that anybody may set. Our own bounds, no source: an alarm that
 * may never be silenced can't be silenced by a long delay either.
 */
const MOST = { delayS: 3600, neverShelvedDelayS: 120, deadbandC: 10 } as const

function checkAlarm(name: AlarmName, setting: AlarmSetting): readonly string[] {
  const guarded = NEVER_SHELVED.includes(name)
  const mostS = guarded ? MOST.neverShelvedDelayS : MOST.delayS
  return [
    ...within(`alarms: ${name}: onDelayS`, setting.onDelayS, mostS, 's'),
    ...within(`alarms: ${name}: offDelayS`, setting.offDelayS, MOST.delayS, 's'),
    ...within(`alarms: ${name}: deadbandC`, setting.deadbandC, MOST.deadbandC, '°C'),
    ...(guarded && setting.inService === false
      ? [
          `alarms: ${name}: inService is false; this alarm guards the goods and the house and stays in service`,
        ]
      : []),
  ]
}

function within(what: string, value: number | undefined, most: number, unit: string): readonly string[] {
  if (value === undefined || (value >= 0 && value <= most)) return []
  return [`${what} is ${value}; allowed is a number from 0 to ${most} ${unit}`]
}
