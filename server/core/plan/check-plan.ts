import { type AlarmName, type AlarmSetting, NEVER_SHELVED } from './alarm-names.ts'
import { checkStage } from './check-stage.ts'
import type { Plan } from './plan.ts'

/**
 * What makes a plan impossible, one sentence a fault; none for a plan that can be run. Whatever is merely
 * unusual passes: a dyer may have reasons, and `warnPlan` says so while the plan is written.
 */
export function checkPlan(plan: Plan): readonly string[] {
  return [
    ...(plan.stages.length === 0 ? ['stages is empty; a plan needs at least one stage'] : []),
    ...repeatedIds(plan),
    ...plan.stages.flatMap(checkStage),
    ...Object.entries(plan.alarms ?? {}).flatMap(([name, setting]) => checkAlarm(name as AlarmName, setting)),
  ]
}

function repeatedIds(plan: Plan): readonly string[] {
  const ids = plan.stages.map((stage) => stage.id)
  const repeated = new Set(ids.filter((id, i) => ids.indexOf(id) !== i))
  return [...repeated].map((id) => {
    const places = ids.flatMap((other, i) => (other === id ? [i + 1] : []))
    return `the id "${id}" repeats, as stages ${places.join(' and ')}; each stage needs an id of its own`
  })
}

/**
 * Longest delay, seconds, and widest deadband, °C, that a plan may set. Our own bounds, no source: an alarm that
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
