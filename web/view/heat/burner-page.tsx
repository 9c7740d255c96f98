import { useState } from 'preact/hooks'
import type { BurnerPage } from '#core/wire/burner'
import { Show } from '../part/fetched.tsx'
import { useAnswer } from '../part/use-answer.ts'
import { usePage, useWords } from '../page-context.ts'
import { BurnerEnergy } from './burner-energy.tsx'
import { BurnerFigures } from './burner-figures.tsx'
import { BurnerRecord } from './burner-record.tsx'
import { BurnerTraces } from './burner-traces.tsx'
import { DialCurve } from './dial-curve.tsx'
import { NeedsVessel } from './needs-vessel.tsx'
import { PotPagesNav } from './pot-pages-nav.tsx'

/** How a pot behaves on its burner, how that is known, and how good it has been. */
export function BurnerPageView({ potId }: { readonly potId: string }) {
  const burner = useAnswer<BurnerPage>(`/api/pots/${encodeURIComponent(potId)}/burner`)
  if (burner.asked?.ok === false && burner.asked.status === 409) return <NeedsVessel />
  return <Show of={burner}>{(page) => <Burner page={page} onChange={burner.again} />}</Show>
}

function Burner({ page, onChange }: { readonly page: BurnerPage; readonly onChange: () => void }) {
  const { w, f } = useWords()
  const { pot, isGuess, burnerChangesMs, traces } = page
  const learned = traces.filter((t) => t.why === 'learned').length
  const changedMs = burnerChangesMs.at(-1)
  return (
    <div class="wide heat">
      <header class="page-head">
        <h1>{w.heat.burnerOf(pot.title)}</h1>
        <PotPagesNav potId={pot.id} title={pot.title} here="burner" />
      </header>
      {isGuess ? (
        <div class="warning" role="note">
          <h2>{w.heat.guessTitle}</h2>
          <p>{changedMs === undefined ? w.heat.guess : w.heat.guessChanged(f.day(changedMs))}</p>
          <a class="button" href={`#/pots/${encodeURIComponent(pot.id)}/evening`}>
            {w.heat.toEvening}
          </a>
        </div>
      ) : (
        <p>{w.heat.learnedFrom(learned)}</p>
      )}
      <DialCurve page={page} />
      <div class="heat-cols">
        <BurnerFigures page={page} />
        <BurnerRecord record={page.record} />
      </div>
      <div class="heat-cols">
        <section class="panel">
          <h2>{w.heat.traces}</h2>
          <BurnerTraces traces={traces} />
          <LearnButtons potId={pot.id} onChange={onChange} />
        </section>
        <BurnerEnergy energy={page.energy} />
      </div>
      <p class="caution">
        {w.heat.never} {w.stove.advice}
      </p>
    </div>
  )
}

function LearnButtons({ potId, onChange }: { readonly potId: string; readonly onChange: () => void }) {
  const { w } = useWords()
  const { state, requests } = usePage()
  const [busy, setBusy] = useState(false)
  const [asking, setAsking] = useState(false)
  const post = async (part: string, body: object): Promise<void> => {
    setBusy(true)
    const done = await requests.ask('POST', `/api/pots/${encodeURIComponent(potId)}/burner/${part}`, body)
    setBusy(false)
    setAsking(false)
    if (done.ok) onChange()
    else state.refusal.value = done.why
  }
  const { who } = state.settings.value
  if (asking)
    return (
      <div class="warning">
        <p>{w.heat.changedSure}</p>
        <div class="buttons">
          <button
            type="button"
            class="button"
            disabled={busy}
            onClick={() => void post('changed', who === '' ? {} : { who })}
          >
            {w.heat.changedYes}
          </button>
          <button type="button" class="button quiet" onClick={() => setAsking(false)}>
            {w.shell.cancel}
          </button>
        </div>
      </div>
    )
  return (
    <div class="buttons">
      <button type="button" class="button" disabled={busy} onClick={() => void post('learn', {})}>
        {busy ? w.heat.learning : w.heat.learnAgain}
      </button>
      <button type="button" class="button quiet" onClick={() => setAsking(true)}>
        {w.heat.changed}
      </button>
    </div>
  )
}
