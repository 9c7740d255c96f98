import type { PotView } from '../pot-view.ts'
import type { StageNotes } from '../stage-notes.ts'
import { coolEnough, outByDue } from './end-notices.ts'
import { holdDone, holdPaused, holdStarted, turnDue } from './hold-notices.ts'
import type { Noted, NoticeRule } from './notice-rule.ts'
import { atWindow, turnDownNow } from './reach-window.ts'

/** In the order in which they are told when several fall on one moment. */
const RULES: readonly NoticeRule[] = [
  turnDownNow,
  atWindow,
  holdStarted,
  holdPaused,
  turnDue,
  holdDone,
  outByDue,
  coolEnough,
]

export function stepNotices(view: PotView, notes: StageNotes): Noted {
  return RULES.reduce<Noted>(
    (so, rule) => {
      const { notes: next, told } = rule(view, so.notes)
      return { notes: next, told: told.length === 0 ? so.told : [...so.told, ...told] }
    },
    { notes, told: [] },
  )
}
