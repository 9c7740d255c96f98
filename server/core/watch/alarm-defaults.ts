import { type AlarmName, type AlarmSetting, NEVER_SHELVED, type Urgency } from '../plan/alarm-names.ts'
import type { WatchSettings } from './watch-settings.ts'

/** How long a condition must hold before it is an alarm, how clear and how long it must be gone. */
export interface AlarmTiming {
  readonly onDelayMs: number
  readonly offDelayMs: number
  readonly deadbandC: number
  readonly urgency: Urgency
}

const MINUTE = 60_000

const soon = (onDelayS: number, offDelayS: number, deadbandC = 0): AlarmTiming => ({
  onDelayMs: onDelayS * 1000,
  offDelayMs: offDelayS * 1000,
  deadbandC,
  urgency: 'soon',
})
const atOnce = (onDelayS: number, offDelayS: number, deadbandC = 0): AlarmTiming => ({
  ...soon(onDelayS, offDelayS, deadbandC),
  urgency: 'at-once',
})

/**
 * The defaults of every alarm; the figures are the table of `docs/watch.md`, which follows
 * the trade's practice: 0.5 °C to clear, about 15 s for a ceiling, 60–180 s for a window.
 */
export const ALARM_DEFAULTS: Readonly<Record<AlarmName, AlarmTiming>> = {
  'above-window': soon(60, 60, 0.5),
  'below-window': soon(90, 60, 0.5),
  'above-ceiling': atOnce(5, 60, 0.5),
  'heading-above-window': soon(60, 60),
  'heading-above-ceiling': atOnce(30, 60),
  'heating-too-fast': soon(60, 60),
  'cooling-too-fast': soon(60, 60),
  'no-heat': soon(0, 0),
  'not-cooling': atOnce((5 * MINUTE) / 1000, 0, 1),
  'unplanned-heating': atOnce(0, 0),
  'near-boil': soon(60, 0, 2),
  'boil-dry': atOnce(10, 0, 2),
  'probe-silent': soon(60, 0),
  'probe-out': soon(0, 0),
  'probe-stuck': soon((10 * MINUTE) / 1000, 0),
  'probe-fault': soon(0, 0),
  'wrong-burner': atOnce(0, 0),
  'probes-swapped': atOnce(0, 0),
  'power-lost': atOnce(0, 0),
  'bridge-lost': atOnce(60, 0),
}

/** The timing of one alarm: the plan's setting, else the settings', else the default. */
export function timingOf(alarm: AlarmName, settings: WatchSettings, plan: PlanAlarms): AlarmTiming {
  const base = ALARM_DEFAULTS[alarm]
  if (settings.alarms === undefined && plan === undefined) return base
  const set: AlarmSetting = { ...settings.alarms?.[alarm], ...plan?.[alarm] }
  return {
    ...base,
    onDelayMs: set.onDelayS === undefined ? base.onDelayMs : set.onDelayS * 1000,
    offDelayMs: set.offDelayS === undefined ? base.offDelayMs : set.offDelayS * 1000,
    deadbandC: set.deadbandC ?? base.deadbandC,
  }
}

/** Out of service by plan or settings; what may never be shelved is always in service. */
export function isInService(alarm: AlarmName, settings: WatchSettings, plan: PlanAlarms): boolean {
  if (NEVER_SHELVED.includes(alarm)) return true
  return plan?.[alarm]?.inService ?? settings.alarms?.[alarm]?.inService ?? true
}

type PlanAlarms = WatchSettings['alarms']
