import { isBackDated } from '#core/batch/is-back-dated'
import { alarmText } from '#core/words/alarm-text'
import type { AlarmRecord, EventRecord } from '#core/wire/records'
import { Mark } from '../part/mark.tsx'
import { usePage, useWords } from '../page-context.ts'
import { eventName } from '../words/event-name.ts'
import { namesOf } from '../words/told-text.ts'

/** What was noted, oldest first; a mistake is taken back here and stays readable. */
export function EventLog(props: {
  readonly events: readonly EventRecord[]
  readonly batchId: number
  readonly onChange: () => void
}) {
  const { w, f } = useWords()
  const { requests, state } = usePage()
  const { events } = props
  async function strike(eventId: number): Promise<void> {
    const who = state.settings.peek().who
    const path = `/api/batches/${props.batchId}/events/${eventId}/strike`
    const done = await requests.ask('POST', path, { who: who === '' ? null : who })
    if (done.ok) props.onChange()
    else state.refusal.value = done.why
  }
  if (events.length === 0) return <p class="row-more">{w.batch.noEvents}</p>
  return (
    <ul class="log">
      {events.map((e) => (
        <li key={e.id}>
          <time dateTime={new Date(e.atMs).toISOString()}>{f.clock(e.atMs)}</time>{' '}
          {isStruck(e) ? <del>{eventName(e.event, { w, f })}</del> : eventName(e.event, { w, f })}
          {e.who !== null && <span class="row-more"> · {e.who}</span>}
          {isBackDated(e) && <span class="row-more"> {w.batch.notedLater(f.clock(e.notedMs))}</span>}
          {isStruck(e) && <span class="row-more"> {w.batch.takenBack}</span>}
          {!isStruck(e) && mayBeStruck(e) && (
            <button
              type="button"
              class="button quiet take-back"
              aria-label={`${w.batch.takeBack}: ${eventName(e.event, { w, f })}, ${f.clock(e.atMs)}`}
              onClick={() => void strike(e.id)}
            >
              {w.batch.takeBack}
            </button>
          )}
        </li>
      ))}
    </ul>
  )
}

const isStruck = (e: EventRecord): boolean => typeof e.struckMs === 'number'

/** The begin of a stage and the end of a batch are no notes. */
const mayBeStruck = ({ event }: EventRecord): boolean => event.kind !== 'stage' && event.kind !== 'end'

/** Alarms with how long they stood and who answered. */
export function AlarmLog({ alarms }: { readonly alarms: readonly AlarmRecord[] }) {
  const { w, f } = useWords()
  const { pots } = namesOf(usePage().state.stove.value.pots ?? [])
  if (alarms.length === 0) return <p class="row-more">{w.batch.noAlarms}</p>
  return (
    <ul class="log">
      {alarms.map((a) => (
        <li key={a.alarmId}>
          <p class="alarm-head">
            <Mark name={markOf(a.urgency)} />
            <time dateTime={new Date(a.raisedMs).toISOString()}>{f.clock(a.raisedMs)}</time>
            {a.facts === undefined ? a.text : alarmText(a.facts, { pots }, f.person)}
          </p>
          <p class="row-more">
            {[
              a.clearedMs === null
                ? w.batch.alarmStands
                : w.batch.alarmStood(f.span(a.clearedMs - a.sinceMs)),
              a.acknowledgedMs === null
                ? a.foundLate
                  ? w.batch.alarmFoundLate
                  : w.batch.alarmUnanswered
                : w.batch.alarmAnswered(
                    a.acknowledgedBy ?? w.batch.someone,
                    f.clock(a.acknowledgedMs),
                    f.span(a.acknowledgedMs - a.raisedMs),
                  ),
            ].join('; ')}
          </p>
        </li>
      ))}
    </ul>
  )
}

const markOf = (urgency: string) =>
  urgency === 'at-once' || urgency === 'soon' || urgency === 'morning' ? urgency : 'log'
