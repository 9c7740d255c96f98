import type { PotLive } from '#core/wire/live'
import { asksOf, pressingUrgency } from '../../state/open-alarms.ts'
import { usePage, useWords } from '../page-context.ts'
import { AdviceLines } from '../heat/advice-lines.tsx'
import { EveningLine } from '../heat/evening-line.tsx'
import { LiftLines } from '../heat/lift-lines.tsx'
import { PotPagesNav } from '../heat/pot-pages-nav.tsx'
import { LiveTrace } from '../trace/live-trace.tsx'
import { NoteButtons } from '../record/note-buttons.tsx'
import { ActButtons } from './act-buttons.tsx'
import { HoldClock } from './hold-clock.tsx'
import { PotAlarms } from './pot-alarms.tsx'
import { NextList, NotedLine, StageLine } from './pot-facts.tsx'
import { PotReading, useFreshness } from './pot-reading.tsx'
import { StageSteps } from './stage-steps.tsx'

/** One pot that fills the screen: everything about it, and every button. */
export function PotWhole({ pot }: { readonly pot: PotLive }) {
  const { w } = useWords()
  const { state } = usePage()
  const asks = asksOf(state.stove.value.alarms, pot.potId)
  const fresh = useFreshness(pot)
  return (
    <article
      class={`pot-whole ${asks === null ? '' : 'asking'} ${pressingUrgency(asks) ?? 'calm'} ${fresh.kind}`}
      aria-label={pot.title}
    >
      <header class="pot-head">
        <h1>{pot.title}</h1>
        <StageLine pot={pot} />
      </header>
      <PotAlarms asks={asks} />
      <div class="whole-left">
        <EveningLine pot={pot} />
        <PotReading pot={pot} />
        {pot.hold !== null && <HoldClock hold={pot.hold} full={true} />}
        <AdviceLines pot={pot} isWhole={true} />
        <LiftLines pot={pot} isWhole={true} />
        <NextList pot={pot} most={5} />
        <NotedLine pot={pot} />
      </div>
      <div class="whole-right">
        <div class="pot-trace">
          <LiveTrace pot={pot} asks={asks !== null} />
        </div>
        <ActButtons pot={pot} />
        {pot.batch !== null && (
          <NoteButtons batchId={pot.batch.id} stages={pot.stages} stageId={pot.stage?.id ?? null} />
        )}
      </div>
      <StageSteps pot={pot} />
      <PotPagesNav potId={pot.potId} title={pot.title} here="pot" />
      <p class="caution">
        {w.stove.hot} {w.stove.advice}
      </p>
    </article>
  )
}
