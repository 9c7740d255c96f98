import type { AlarmName } from '../plan/alarm-names.ts'
import { stepCoolNotes } from './cool-notes.ts'
import type { NoticeHappening } from './happening.ts'
import { stepNotices } from './notices/all-notices.ts'
import type { Told } from './notices/notice-rule.ts'
import type { PotStep } from './pot-events.ts'
import type { PotState } from './pot-state.ts'
import type { PotView } from './pot-view.ts'
import { stepAlarms } from './step-alarms.ts'
import type { WatchSettings } from './watch-settings.ts'

/** Judges a pot at a moment: what there is to tell and which alarms rise, grow or end. */
export function stepPot(view: PotView, settings: WatchSettings, inhibited: ReadonlySet<AlarmName>): PotStep {
  const { pot, atMs } = view
  const { notes, told } = stepNotices(view, stepCoolNotes(view, pot.notes))
  const noted = notes === pot.notes ? pot : withReached({ ...pot, notes })
  const { alarms, happenings } = stepAlarms(
    noted === pot ? view : { ...view, pot: noted },
    settings,
    inhibited,
  )
  const next = { ...noted, alarms, judgedMs: atMs }
  return { pot: next, happenings: [...told.map((t) => noticeOf(view, t)), ...happenings] }
}

/** The run keeps when it was cool enough; the notes end with the stage. */
function withReached(pot: PotState): PotState {
  const { run, notes } = pot
  if (run === null || run.cooling === null || run.cooling.reachedMs === notes.coolEnoughMs) return pot
  return { ...pot, run: { ...run, cooling: { ...run.cooling, reachedMs: notes.coolEnoughMs } } }
}

const noticeOf = ({ atMs, pot, stage, tempC }: PotView, told: Told): NoticeHappening => ({
  kind: 'notice',
  atMs,
  potId: pot.potId,
  stageId: stage?.id ?? '',
  tempC,
  ...told,
})
