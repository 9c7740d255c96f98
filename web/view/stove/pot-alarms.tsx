import { useState } from 'preact/hooks'
import { mayBeShelved } from '#core/watch/alarm-shelf'
import type { AlarmMessage } from '#core/wire/live'
import { type PotAsks, isUnanswered } from '../../state/open-alarms.ts'
import { Dialog } from '../part/dialog.tsx'
import { Mark } from '../part/mark.tsx'
import { usePage, useWords } from '../page-context.ts'
import { alarmBrief, alarmTold } from '../words/told-text.ts'

/**
 * What a pot asks for in a few words and one large button; a tap on the words tells it in full, with whatever
 * else stands. Low, so that the trace keeps its room: it is wanted most just then.
 */
export function AlarmLine({ asks }: { readonly asks: PotAsks }) {
  const { w, f } = useWords()
  const [open, setOpen] = useState(false)
  const { first, others } = asks
  const brief = alarmBrief(first, usePage().state.stove.value.pots ?? [], f)
  const title = usePotTitle(asks.potId)
  return (
    <div class={`alarm alarm-line ${lookOf(first)}`}>
      <button type="button" class="alarm-open" aria-haspopup="dialog" onClick={() => setOpen(true)}>
        <Mark name={first.urgency} />
        <span>
          <strong>
            {w.stove.urgency[first.urgency]}: {brief.what}.
          </strong>{' '}
          {first.state === 'returned-unacknowledged' ? w.stove.returned : brief.act}{' '}
          <span class="alarm-more">
            {others.length > 0 ? w.stove.andMore(others.length) : w.stove.wholeAlarm} ›
          </span>
        </span>
      </button>
      <AnswerButton asks={asks} />
      {open && (
        <Dialog title={w.stove.alarmsAt(title)} onClose={() => setOpen(false)}>
          <PotAlarms asks={asks} open={true} />
        </Dialog>
      )}
    </div>
  )
}

/** What a pot asks for in whole sentences: the most pressing alarm, the rest folded behind it. */
export function PotAlarms({
  asks,
  open = false,
}: {
  readonly asks: PotAsks | null
  readonly open?: boolean
}) {
  const { w } = useWords()
  if (asks === null) return null
  return (
    <section
      class={`pot-alarms alarm ${lookOf(asks.first)}`}
      aria-label={w.stove.urgency[asks.first.urgency]}
    >
      <AlarmWords alarm={asks.first} />
      {asks.others.length > 0 && (
        <details class="alarm-others" open={open}>
          <summary>{w.stove.andMore(asks.others.length)}</summary>
          <ul>
            {asks.others.map((alarm) => (
              <li key={alarm.alarmId}>
                <AlarmWords alarm={alarm} />
              </li>
            ))}
          </ul>
        </details>
      )}
      <div class="alarm-buttons">
        <AnswerButton asks={asks} />
        <ShelveButton alarms={asks.unanswered} />
      </div>
    </section>
  )
}

const lookOf = (alarm: AlarmMessage): string =>
  `${alarm.urgency} ${isUnanswered(alarm) ? 'unanswered' : 'answered'}`

function AlarmWords({ alarm }: { readonly alarm: AlarmMessage }) {
  const { w, f } = useWords()
  const pots = usePage().state.stove.value.pots ?? []
  return (
    <>
      <p class="alarm-head">
        <Mark name={alarm.urgency} />
        <strong>{w.stove.urgency[alarm.urgency]}</strong>
        {alarm.state === 'shelved' && <span>{w.stove.shelvedNow}</span>}
      </p>
      <p class="alarm-text">{alarmTold(alarm, pots, f)}</p>
      {alarm.state === 'returned-unacknowledged' && <p class="alarm-more">{w.stove.returned}</p>}
      <Answered alarm={alarm} />
    </>
  )
}

/** One answer for all that the pot asks: the person stands at it now. */
export function AnswerButton({ asks, small = false }: { readonly asks: PotAsks; readonly small?: boolean }) {
  const { w } = useWords()
  const { acts } = usePage()
  const title = usePotTitle(asks.potId)
  if (asks.unanswered.length === 0) return null
  return (
    <button
      type="button"
      class={`button answer ${small ? '' : 'big'}`}
      aria-label={w.stove.acknowledgeAt(title)}
      onClick={() => void acts.acknowledge(asks.unanswered.map((a) => a.alarmId))}
    >
      {w.stove.acknowledge}
    </button>
  )
}

/** Only where everything that asks may wait: an alarm that may not goes on asking. */
function ShelveButton({ alarms }: { readonly alarms: readonly AlarmMessage[] }) {
  const { w } = useWords()
  const { acts } = usePage()
  if (alarms.length === 0 || !alarms.every((a) => mayBeShelved(a.alarm))) return null
  const ids = alarms.map((a) => a.alarmId)
  return (
    <button type="button" class="button quiet" onClick={() => void acts.shelve(ids, SHELF_MIN)}>
      {w.stove.shelve}
    </button>
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

function usePotTitle(potId: string): string {
  const pots = usePage().state.stove.value.pots ?? []
  return pots.find((pot) => pot.potId === potId)?.title ?? potId
}
