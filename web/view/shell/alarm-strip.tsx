import type { PotLive } from '#core/wire/live'
import { type PotAsks, isUnanswered, potsAsking } from '../../state/open-alarms.ts'
import { Mark } from '../part/mark.tsx'
import { usePage, useWords } from '../page-context.ts'
import { AnswerButton } from '../stove/pot-alarms.tsx'
import { alarmBrief, alarmTold } from '../words/told-text.ts'

/** On other pages only what presses is told: the rest stands at its pot. */
const presses = ({ first }: PotAsks): boolean =>
  isUnanswered(first) &&
  (first.urgency === 'at-once' || (first.urgency === 'soon' && first.state === 'unacknowledged'))

/** Lines of pots at most: more would hide the page that a person needs to act. */
const MOST_POTS = 3

/**
 * Tells on every page what stands: trouble of the server, a lost line, and the alarms that nobody has
 * answered. The live region stays in the page all the time: screen readers hear only what changes inside one.
 */
export function AlarmStrip() {
  const { w, f } = useWords()
  const { state } = usePage()
  const stove = state.stove.value
  const pots = stove.pots ?? []
  const route = state.route.value
  const asking = potsAsking(stove.alarms)
  const isShownHere = (potId: string) =>
    route.kind === 'stove' || route.kind === 'night' || (route.kind === 'pot' && route.potId === potId)
  const elsewhere = asking.filter((asks) => presses(asks) && !isShownHere(asks.potId))
  return (
    <>
      <div class="visually-hidden" role="alert">
        {asking
          .filter(({ first }) => isUnanswered(first) && first.urgency !== 'morning')
          .map(({ first }) => (
            <p key={first.alarmId}>{alarmTold(first, pots, f)}</p>
          ))}
      </div>
      {stove.trouble !== null && (
        <div class="strip at-once" role="alert">
          <strong>{w.shell.trouble}</strong> {w.said(stove.trouble)}
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
      {elsewhere.length > 0 && <Elsewhere asking={elsewhere} />}
    </>
  )
}

/** One line a pot, so that the page below stays of use. */
function Elsewhere({ asking }: { readonly asking: readonly PotAsks[] }) {
  const { w, f } = useWords()
  const pots = usePage().state.stove.value.pots ?? []
  const shown = asking.slice(0, asking.length > MOST_POTS ? MOST_POTS - 1 : MOST_POTS)
  const more = asking.length - shown.length
  return (
    <ul class="strips" aria-label={w.stove.urgency[asking[0]?.first.urgency ?? 'soon']}>
      {shown.map((asks) => (
        <li key={asks.potId} class={`strip pot-strip ${asks.first.urgency}`}>
          <a href={`#/pots/${encodeURIComponent(asks.potId)}`}>
            <Mark name={asks.first.urgency} />
            <span>
              <strong>{titleOf(pots, asks.potId)}:</strong> {alarmBrief(asks.first, pots, f).what}
            </span>
          </a>
          <AnswerButton asks={asks} small={true} />
        </li>
      ))}
      {more > 0 && (
        <li class={`strip pot-strip ${asking[shown.length]?.first.urgency ?? 'soon'}`}>
          <a href="#/">{w.stove.andMorePots(more)}</a>
        </li>
      )}
    </ul>
  )
}

const titleOf = (pots: readonly PotLive[], potId: string): string =>
  pots.find((pot) => pot.potId === potId)?.title ?? potId
