import type { AlarmName, AlarmSetting } from '#core/plan/alarm-names'
import type { Plan } from '#core/plan/plan'
import { type Unit, shownNumber, typedNumber } from './typed-number.ts'

/** Numbers of an alarm that a plan may set. */
export const ALARM_NUMBERS = { onDelayS: 'length', offDelayS: 'length', deadbandC: 'rate' } as const
export type AlarmNumber = keyof typeof ALARM_NUMBERS

/** An alarm that the plan sets otherwise than usual, as typed. An empty field leaves the default. */
export interface AlarmDraft {
  readonly name: AlarmName
  readonly numbers: Readonly<Record<AlarmNumber, string>>
  /** `usual`: nothing is said of it. */
  readonly service: 'usual' | 'in' | 'out'
  readonly read: AlarmSetting
}

export const newAlarm = (name: AlarmName): AlarmDraft => alarmDraft(name, {}, 'C')

export const alarmDrafts = (alarms: NonNullable<Plan['alarms']>, unit: Unit): readonly AlarmDraft[] =>
  Object.entries(alarms).map(([name, setting]) => alarmDraft(name as AlarmName, setting, unit))

const numberNames = Object.keys(ALARM_NUMBERS) as AlarmNumber[]

function alarmDraft(name: AlarmName, setting: AlarmSetting, unit: Unit): AlarmDraft {
  const shown = (field: AlarmNumber) => {
    const value = setting[field]
    return value === undefined ? '' : shownNumber(value, ALARM_NUMBERS[field], unit)
  }
  const { inService } = setting
  return {
    name,
    numbers: { onDelayS: shown('onDelayS'), offDelayS: shown('offDelayS'), deadbandC: shown('deadbandC') },
    service: inService === undefined ? 'usual' : inService ? 'in' : 'out',
    read: setting,
  }
}

/** What was typed → the plan's settings, and the fields that are no number (`above-window.onDelayS`). */
export function alarmsFromDrafts(
  drafts: readonly AlarmDraft[],
  unit: Unit,
): { readonly alarms: NonNullable<Plan['alarms']>; readonly noNumbers: readonly string[] } {
  const noNumbers: string[] = []
  const alarms = drafts.map((draft) => {
    const numbers = numberNames.flatMap((field) => {
      const typed = draft.numbers[field].trim()
      if (typed === '') return []
      const value = typedNumber(typed, ALARM_NUMBERS[field], unit, draft.read[field])
      if (value === null) noNumbers.push(`${draft.name}.${field}`)
      return [[field, value] as const]
    })
    const service = draft.service === 'usual' ? {} : { inService: draft.service === 'in' }
    return [draft.name, { ...Object.fromEntries(numbers), ...service }] as const
  })
  return { alarms: Object.fromEntries(alarms), noNumbers }
}
