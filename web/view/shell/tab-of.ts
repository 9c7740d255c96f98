import type { PageMark } from '../../device/page-mark.ts'
import { byPressing, isUnanswered } from '../../state/open-alarms.ts'
import type { PageState } from '../../state/page-state.ts'
import type { Reader } from '../words/reader.ts'
import { alarmBrief, namesOf } from '../words/told-text.ts'
import { entryOf } from './top-bar.tsx'

/** Title and icon of the browser's tab: an alarm must show there when another tab is in front. */
export function tabOf(
  state: PageState,
  { w, f }: Reader,
): { readonly mark: PageMark; readonly title: string } {
  const { shell } = w
  const stove = state.stove.value
  if (stove.silent) return { mark: 'at-once', title: shell.tabAlarm(shell.silent) }
  const first = byPressing(stove.alarms.filter(isUnanswered))[0]
  if (first !== undefined && (first.urgency === 'at-once' || first.urgency === 'soon'))
    return {
      mark: first.urgency,
      title: shell.tabAlarm(
        `${namesOf(stove.pots ?? []).pots[first.pot] ?? first.pot}: ${alarmBrief(first, stove.pots ?? [], f).what}`,
      ),
    }
  const entry = entryOf(state.route.value)
  return { mark: 'calm', title: entry === null ? shell.product : shell.tabCalm(shell.nav[entry]) }
}
