import type { AlarmMessage } from '#core/wire/live'
import { alarmsOf, byPressing, isUnanswered } from '../../state/open-alarms.ts'
import { usePage, useWords } from '../page-context.ts'
import { alarmTold } from '../words/told-text.ts'

/** On other pages only what presses is told: the rest stands at its pot. */
const pressing = (a: AlarmMessage): boolean =>
  a.urgency === 'at-once' || (a.urgency === 'soon' && a.state === 'unacknowledged')

/** More would hide the page that a person needs to act. */
const MOST_SHOWN = 3

/**
 * Tells on every page what stands: trouble of the server, a lost line, and the alarms that nobody has
 * answered. The live region stays in the page all the time: screen readers hear only what changes inside one.
 */
export function AlarmStrip() {
  const { w, f } = useWords()
  const { state, acts } = usePage()
  const stove = state.stove.value
  const pots = stove.pots ?? []
  const route = state.route.value
  const urgent = byPressing(stove.alarms.filter((a) => isUnanswered(a) && a.urgency !== 'log'))
  const shownHere = (potId: string) =>
    (route.kind === 'stove' || route.kind === 'night' || (route.kind === 'pot' && route.potId === potId)) &&
    alarmsOf(stove.alarms, potId).length > 0
  const elsewhere = urgent.filter((a) => pressing(a) && !shownHere(a.pot)).slice(0, MOST_SHOWN)
  return (
    <>
      <div class="visually-hidden" role="alert">
        {urgent
          .filter((a) => a.urgency !== 'morning')
          .map((a) => (
            <p key={a.alarmId}>{alarmTold(a, pots, f)}</p>
          ))}
      </div>
      {stove.trouble !== null && (
        <div class="strip at-once" role="alert">
          <strong>{w.shell.trouble}</strong> {stove.trouble}
        </div>
      )}
      {stove.link === 'down' && !stove.silent && (
        <div class="strip soon" role="status">
          {w.shell.linkDown}
        </div>
      )}
      {state.refusal.value !== null && (
        <div class="strip soon" role="alert">
          <span>{w.shell.failed(state.refusal.value)}</span>
          <button type="button" class="button" onClick={() => (state.refusal.value = null)}>
            {w.shell.dismiss}
          </button>
        </div>
      )}
      {elsewhere.map((a) => (
        <div key={a.alarmId} class={`strip ${a.urgency}`}>
          <a href={`#/pots/${encodeURIComponent(a.pot)}`}>{alarmTold(a, pots, f)}</a>
          <button type="button" class="button" onClick={() => void acts.acknowledge(a.alarmId)}>
            {w.stove.acknowledge}
          </button>
        </div>
      ))}
    </>
  )
}
