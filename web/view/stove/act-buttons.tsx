import { useState } from 'preact/hooks'
import type { BathEvent } from '#core/plan/event'
import type { PotLive } from '#core/wire/live'
import { Dialog } from '../part/dialog.tsx'
import { usePage, useWords } from '../page-context.ts'
import { eventName } from '../words/event-name.ts'
import { UndoNote } from '../record/undo-note.tsx'
import { DialButtons } from './dial-buttons.tsx'

/** Large buttons for wet hands: one tap notes what was done, and when. */
export function ActButtons({ pot }: { readonly pot: PotLive }) {
  const { w, f } = useWords()
  const { state, acts } = usePage()
  const [agoMin, setAgoMin] = useState(0)
  const [dialOpen, setDialOpen] = useState(false)
  const [said, setSaid] = useState('')
  const [notedId, setNotedId] = useState<number | null>(null)
  const at = { potId: pot.potId, batchId: pot.batch?.id ?? null }

  async function note(event: BathEvent): Promise<void> {
    setDialOpen(false)
    const atMs = state.nowMs.peek() - agoMin * 60_000
    const noted = await acts.note(at, event, agoMin)
    if (noted !== null) setSaid(w.stove.noted(eventName(event, { w, f }), f.clock(atMs)))
    setNotedId(noted?.id ?? null)
    setAgoMin(0)
  }
  return (
    <section class="acts" aria-label={w.stove.noteFor(pot.title)}>
      {pot.batch === null && <StartHere pot={pot} />}
      <div class="act-grid">
        {eventsFor(pot).map((event) => (
          <button
            key={eventName(event, { w, f })}
            type="button"
            class="button act"
            onClick={() => void note(event)}
          >
            {eventName(event, { w, f })}
          </button>
        ))}
        <button type="button" class="button act" onClick={() => setDialOpen(true)}>
          {w.stove.act.dial}
        </button>
      </div>
      <div class="act-foot">
        <label>
          {w.stove.when}{' '}
          <select value={agoMin} onChange={(e) => setAgoMin(Number(e.currentTarget.value))}>
            {AGO_MIN.map((min) => (
              <option key={min} value={min}>
                {min === 0 ? w.stove.whenNow : w.stove.whenAgo(min)}
              </option>
            ))}
          </select>
        </label>
        <p role="status">{said}</p>
        {notedId !== null && at.batchId !== null && (
          <UndoNote key={notedId} batchId={at.batchId} eventId={notedId} />
        )}
      </div>
      {dialOpen && (
        <Dialog title={w.stove.dialTitle} onClose={() => setDialOpen(false)}>
          <DialButtons pot={pot} onDial={(dial) => void note({ kind: 'dial', dial })} />
        </Dialog>
      )}
    </section>
  )
}

/** What was done may be written down late; it is marked as such. Minutes. */
const AGO_MIN = [0, 2, 5, 10, 20, 30]

/**
 * A lid that is noted on can only come off. Both of goods-in and goods-out stay: until one is noted the goods are only
 * taken to be in.
 */
function eventsFor(pot: PotLive): readonly BathEvent[] {
  return [
    { kind: 'goods-in' },
    { kind: 'goods-out' },
    { kind: 'stir' },
    { kind: 'lid', lid: pot.lid === 'on' ? 'off' : 'on' },
    { kind: 'top-up' },
    { kind: 'probe-moved' },
  ]
}

function StartHere({ pot }: { readonly pot: PotLive }) {
  const { w } = useWords()
  return (
    <p class="start-here">
      <a class="button" href="#/start" aria-label={`${w.stove.startHere}: ${pot.title}`}>
        {w.stove.startHere}
      </a>
    </p>
  )
}
