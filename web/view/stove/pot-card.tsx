import { useState } from 'preact/hooks'
import type { DialAdvice } from '#core/watch/dial-advice'
import type { PotLive } from '#core/wire/live'
import { asksOf, pressingUrgency } from '../../state/open-alarms.ts'
import { Dialog } from '../part/dialog.tsx'
import { usePage, useWords } from '../page-context.ts'
import { AdviceLines } from '../heat/advice-lines.tsx'
import { EveningLine } from '../heat/evening-line.tsx'
import { LiftLines } from '../heat/lift-lines.tsx'
import { LiveTrace } from '../trace/live-trace.tsx'
import { ActButtons } from './act-buttons.tsx'
import { HoldClock } from './hold-clock.tsx'
import { AlarmLine } from './pot-alarms.tsx'
import { NextList, StageLine } from './pot-facts.tsx'
import { PotReading, useFreshness } from './pot-reading.tsx'

/** One pot among several: what must be seen from across the room, and the way to the whole pot. */
export function PotCard({ pot }: { readonly pot: PotLive }) {
  const { w } = useWords()
  const { state } = usePage()
  const [noting, setNoting] = useState(false)
  const asks = asksOf(state.stove.value.alarms, pot.potId)
  const fresh = useFreshness(pot)
  return (
    <article
      class={`pot-card ${asks === null ? '' : 'asking'} ${pressingUrgency(asks) ?? 'calm'} ${fresh.kind}`}
      aria-label={pot.title}
    >
      <header class="pot-head">
        <h2>
          <a href={`#/pots/${encodeURIComponent(pot.potId)}`} title={w.stove.open(pot.title)}>
            {pot.title}
          </a>
        </h2>
        <button
          type="button"
          class="button note-button"
          aria-label={w.stove.noteFor(pot.title)}
          onClick={() => setNoting(true)}
        >
          {w.stove.noteShort}
        </button>
        <StageLine pot={pot} />
      </header>
      <EveningLine pot={pot} />
      <PotReading pot={pot} />
      {asks !== null && <AlarmLine asks={asks} />}
      <div class="pot-trace">
        <LiveTrace pot={pot} asks={asks !== null} />
      </div>
      {pot.hold !== null && <HoldClock hold={pot.hold} full={false} />}
      {asksForHand(pot) && asks === null ? (
        <AdviceLines pot={pot} isWhole={false} />
      ) : (
        <NextOrLift pot={pot} />
      )}
      {noting && (
        <Dialog title={w.stove.noteFor(pot.title)} onClose={() => setNoting(false)}>
          <ActButtons pot={pot} />
        </Dialog>
      )}
    </article>
  )
}

/** While a bath cools, the alarm clock is what one goes by, where one is set. */
const NextOrLift = ({ pot }: { readonly pot: PotLive }) =>
  pot.lift ? <LiftLines pot={pot} isWhole={false} /> : <NextList pot={pot} most={1} />

/** On a card there is room for one thing: advice stands there while the dial wants turning. */
const asksForHand = ({ advice, tempC }: PotLive): boolean =>
  tempC !== null &&
  advice !== null &&
  advice !== undefined &&
  (advice.sense !== null || (advice.dial !== null && !standsWell(advice.dial)))

const standsWell = (dial: DialAdvice): boolean =>
  dial.kind === 'cool' || (dial.kind === 'hold' && dial.leaves === null)
