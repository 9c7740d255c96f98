import { mayBeShelved } from '#core/watch/alarm-shelf'
import type { AlarmMessage } from '#core/wire/live'
import { isUnanswered } from '../../state/open-alarms.ts'
import { Mark } from '../part/mark.tsx'
import { usePage, useWords } from '../page-context.ts'
import { alarmTold } from '../words/told-text.ts'

/** The alarms of one pot: what is, what to do, and the one large button that says a person is there. */
export function PotAlarms(props: { readonly alarms: readonly AlarmMessage[]; readonly most: number }) {
  if (props.alarms.length === 0) return null
  return (
    <ul class="pot-alarms">
      {props.alarms.slice(0, props.most).map((alarm) => (
        <li key={alarm.alarmId}>
          <AlarmBox alarm={alarm} />
        </li>
      ))}
    </ul>
  )
}

function AlarmBox({ alarm }: { readonly alarm: AlarmMessage }) {
  const { w, f } = useWords()
  const pots = usePage().state.stove.value.pots ?? []
  return (
    <div class={`alarm ${alarm.urgency} ${isUnanswered(alarm) ? 'unanswered' : 'answered'}`}>
      <p class="alarm-head">
        <Mark name={alarm.urgency} />
        <strong>{w.stove.urgency[alarm.urgency]}</strong>
        {alarm.state === 'shelved' && <span>{w.stove.shelvedNow}</span>}
      </p>
      <p class="alarm-text">{alarmTold(alarm, pots, f)}</p>
      {alarm.state === 'returned-unacknowledged' && <p class="alarm-more">{w.stove.returned}</p>}
      {isUnanswered(alarm) ? <AlarmButtons alarm={alarm} /> : <Answered alarm={alarm} />}
    </div>
  )
}

function AlarmButtons({ alarm }: { readonly alarm: AlarmMessage }) {
  const { w } = useWords()
  const { acts } = usePage()
  return (
    <div class="alarm-buttons">
      <button type="button" class="button big answer" onClick={() => void acts.acknowledge(alarm.alarmId)}>
        {w.stove.acknowledge}
      </button>
      {mayBeShelved(alarm.alarm) && (
        <button type="button" class="button quiet" onClick={() => void acts.shelve(alarm.alarmId, SHELF_MIN)}>
          {w.stove.shelve}
        </button>
      )}
    </div>
  )
}

/** Long enough to stir or to top up in peace; it ends by itself. Minutes. */
const SHELF_MIN = 5

function Answered({ alarm }: { readonly alarm: AlarmMessage }) {
  const { w, f } = useWords()
  if (alarm.acknowledgedAt === null) return null
  const who = alarm.acknowledgedBy ?? w.stove.someone
  return <p class="alarm-more">{w.stove.acknowledgedBy(who, f.clock(Date.parse(alarm.acknowledgedAt)))}</p>
}
