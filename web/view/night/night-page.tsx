import { useEffect, useState } from 'preact/hooks'
import type { PotLive } from '#core/wire/live'
import { type Awake, keepAwake } from '../../device/keep-awake.ts'
import { standingOf } from '../../state/bath-standing.ts'
import { asksOf, potsAsking } from '../../state/open-alarms.ts'
import { Mark } from '../part/mark.tsx'
import { usePage, useWords } from '../page-context.ts'
import { SoundSwitch } from '../shell/sound-switch.tsx'
import { NextList } from '../stove/pot-facts.tsx'
import { PotAlarms } from '../stove/pot-alarms.tsx'
import { staleWord, useFreshness } from '../stove/pot-reading.tsx'
import { AdviceLines } from '../heat/advice-lines.tsx'
import { LiftLines } from '../heat/lift-lines.tsx'
import { TestAlarm } from './test-alarm.tsx'
import { WakeForm } from './wake-form.tsx'
import { WhoHears } from './who-hears.tsx'

/** Dark, one glance: does anything ask for me, and would I be woken? */
export function NightPage() {
  const { w, f } = useWords()
  const { state } = usePage()
  const stove = state.stove.value
  const pots = stove.pots ?? []
  const calling = potsAsking(stove.alarms).filter((asks) => asks.unanswered.length > 0).length
  return (
    <div class="night">
      <header class="night-head">
        <h1>{w.stove.nightTitle}</h1>
        <time class="night-clock">{f.clock(state.nowMs.value)}</time>
        <SoundSwitch />
        <a class="button quiet" href="#/">
          {w.shell.backToStove}
        </a>
      </header>
      <p class={`night-verdict ${calling === 0 ? 'calm' : 'calling'}`}>
        <Mark name={calling === 0 ? 'done' : 'at-once'} />
        {calling === 0 ? w.stove.nightFine : w.stove.nightCalls(calling)}
      </p>
      <ul class="night-pots">
        {pots.map((pot) => (
          <NightPot key={pot.potId} pot={pot} />
        ))}
      </ul>
      <section class="night-foot">
        <p class={stove.listeners === 0 ? 'hearers nobody' : 'hearers'}>{w.stove.hearers(stove.listeners)}</p>
        <WakeForm />
        <AwakeLine />
        <TestAlarm />
        <WhoHears />
        <a class="button quiet" href="#/morning">
          {w.tell.morning}
        </a>
        {pots.some((pot) => (pot.dial ?? 0) > 0) && <p class="night-burner">{w.stove.burnerOn}</p>}
        <p class="caution">{w.stove.advice}</p>
      </section>
    </div>
  )
}

function NightPot({ pot }: { readonly pot: PotLive }) {
  const { w, f } = useWords()
  const asks = asksOf(usePage().state.stove.value.alarms, pot.potId)
  const fresh = useFreshness(pot)
  const standing = fresh.kind === 'fresh' ? standingOf(pot.stage, fresh.tempC) : 'stale'
  return (
    <li class={`night-pot ${fresh.kind}`}>
      <h2>{pot.title}</h2>
      <p class="night-number">{fresh.kind === 'fresh' ? f.temp(fresh.tempC) : '– –'}</p>
      <p class={`standing standing-${standing} ${pot.hold?.state === 'waiting' ? 'on-the-way' : ''}`}>
        {standing !== 'no-window' && <Mark name={standing} />}
        {fresh.kind === 'fresh'
          ? w.stove.standing[standingOf(pot.stage, fresh.tempC)]
          : staleWord(fresh, w, f)}
      </p>
      <NextList pot={pot} most={1} />
      <LiftLines pot={pot} isWhole={true} />
      {pot.advice?.sense && <AdviceLines pot={pot} isWhole={false} />}
      <PotAlarms asks={asks} />
    </li>
  )
}

/** The screen's wake lock lives as long as this line is on the page. */
function AwakeLine() {
  const { w } = useWords()
  const [awake, setAwake] = useState<Awake>('off')
  const [round, setRound] = useState(0)
  useEffect(() => keepAwake(setAwake), [round])
  if (awake !== 'off') return <p>{awake === 'on' ? w.stove.awakeOn : w.stove.awakeCannot}</p>
  return (
    <button type="button" class="button" onClick={() => setRound((n) => n + 1)}>
      {w.stove.awakeOff}
    </button>
  )
}
