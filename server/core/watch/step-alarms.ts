import type { AlarmName } from '../plan/alarm-names.ts'
import { type AlarmManners, mannersOf } from './alarm-manners.ts'
import type { AlarmHappening } from './happening.ts'
import type { AlarmState, PotState } from './pot-state.ts'
import type { PotView } from './pot-view.ts'
import { ALL_RULES } from './rules/all-rules.ts'
import type { AlarmRule } from './rules/alarm-rule.ts'
import { type Finding, QUIET, type Standing, type StandingChange, stepStanding } from './standing.ts'
import type { WatchSettings } from './watch-settings.ts'

type Alarms = PotState['alarms']

/** A moment of all the alarms of one pot. `inhibited`: a cause seen over several pots stands in their place. */
export function stepAlarms(
  view: PotView,
  settings: WatchSettings,
  inhibited: ReadonlySet<AlarmName>,
): { readonly alarms: Alarms; readonly happenings: readonly AlarmHappening[] } {
  const happenings: AlarmHappening[] = []
  const manner = mannersOf(settings, view.pot.plan?.alarms)
  let { alarms } = view.pot
  for (const rule of ALL_RULES) {
    const { state, happening } = stepRule(rule, view, manner, inhibited.has(rule.alarm))
    if (state !== alarms[rule.alarm]) alarms = withAlarm(alarms, rule.alarm, state)
    if (happening !== null) happenings.push(happening)
  }
  return { alarms, happenings }
}

function stepRule(rule: AlarmRule, view: PotView, manner: AlarmManners, inhibited: boolean) {
  const before = view.pot.alarms[rule.alarm]
  const { timing, inService } = manner[rule.alarm]
  const finding = inhibited || !inService ? null : rule.judge(view, timing)
  if (finding === null) return endAlarm(rule.alarm, view, before)
  const { standing, change } = stepStanding(before?.standing ?? QUIET, finding, view.atMs, timing)
  const state = nextState(before, standing, finding, rule.alarm, view)
  const told = change === 'cleared' ? before : state
  return { state, happening: happeningOf(rule.alarm, view, change, told) }
}

const NOTHING = { state: undefined, happening: null }

/** The alarm has no meaning any more (its stage is over): if it rang, it ends. */
function endAlarm(alarm: AlarmName, view: PotView, before: AlarmState | undefined) {
  if (before?.standing.kind !== 'ringing') return NOTHING
  return { state: undefined, happening: happeningOf(alarm, view, 'cleared', before) }
}

/** Ends all of them at the end of a stage. */
export function endAlarms(view: PotView): readonly AlarmHappening[] {
  return ALL_RULES.flatMap(({ alarm }) => endAlarm(alarm, view, view.pot.alarms[alarm]).happening ?? [])
}

function nextState(
  before: AlarmState | undefined,
  standing: Standing,
  finding: Finding,
  alarm: AlarmName,
  view: PotView,
): AlarmState | undefined {
  if (standing.kind === 'quiet') return undefined
  const limitC = finding.limitC ?? before?.limitC ?? null
  const peakC = peakOf(alarm, before?.peakC ?? null, view)
  const same = before?.standing === standing && before.limitC === limitC && before.peakC === peakC
  return same ? before : { standing, limitC, peakC }
}

const HAS_PEAK: ReadonlySet<AlarmName> = new Set<AlarmName>([
  'above-window',
  'below-window',
  'above-ceiling',
  'heading-above-window',
  'heading-above-ceiling',
  'not-cooling',
  'unplanned-heating',
  'near-boil',
  'boil-dry',
])

/** Of believed readings, so that it can be found in the record. */
function peakOf(alarm: AlarmName, peakC: number | null, view: PotView): number | null {
  const readings = view.pot.probes.filter((p) => p.place.kind === 'in').map((p) => p.last?.tempC)
  const temps = readings.filter((t): t is number => t !== undefined)
  if (!HAS_PEAK.has(alarm) || temps.length === 0 || view.tempC === null) return peakC
  const nowC = alarm === 'below-window' ? Math.min(...temps) : Math.max(...temps)
  if (peakC === null) return nowC
  return alarm === 'below-window' ? Math.min(peakC, nowC) : Math.max(peakC, nowC)
}

function withAlarm(alarms: Alarms, alarm: AlarmName, state: AlarmState | undefined): Alarms {
  if (state !== undefined) return { ...alarms, [alarm]: state }
  const { [alarm]: _gone, ...rest } = alarms
  return rest
}

function happeningOf(
  alarm: AlarmName,
  view: PotView,
  change: StandingChange,
  state: AlarmState | undefined,
): AlarmHappening | null {
  if (change === null || state === undefined || state.standing.kind !== 'ringing') return null
  const { sinceMs, urgency, finding } = state.standing
  return {
    kind: 'alarm',
    alarm,
    change,
    atMs: view.atMs,
    sinceMs,
    potId: view.pot.potId,
    stageId: view.stage?.id ?? null,
    urgency,
    tempC: view.tempC ?? view.probe?.last?.tempC ?? null,
    limitC: state.limitC,
    rateCPerMin: view.rateCPerMin,
    lastReadingMs: view.probe?.last?.atMs ?? null,
    peakC: state.peakC,
    expectedMs: finding.expectedMs ?? null,
    dial: view.dial,
    potIds: [view.pot.potId],
    reason: finding.reason ?? null,
  }
}
