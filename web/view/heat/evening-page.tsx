import { useState } from 'preact/hooks'
import type { EveningAnswer } from '#core/wire/burner'
import { Show } from '../part/fetched.tsx'
import { useAnswer } from '../part/use-answer.ts'
import { usePage, useWords } from '../page-context.ts'
import { EveningSteps } from './evening-steps.tsx'
import { EveningStepNow } from './evening-step-now.tsx'
import { PotPagesNav } from './pot-pages-nav.tsx'

/** Looked at while somebody stands at the burner, ms. */
const AGAIN_MS = 3_000

/** The guided evening with plain water that teaches a burner. */
export function EveningPage({ potId }: { readonly potId: string }) {
  const { w } = useWords()
  const { state, requests } = usePage()
  const path = `/api/pots/${encodeURIComponent(potId)}/evening`
  const evening = useAnswer<EveningAnswer>(path, AGAIN_MS)
  const title = state.stove.value.pots?.find((p) => p.potId === potId)?.title ?? potId
  const post = async (at: string, body: object): Promise<void> => {
    const done = await requests.ask('POST', at, body)
    if (!done.ok) state.refusal.value = done.why
    evening.again()
  }
  return (
    <div class="narrow heat evening">
      <header class="page-head">
        <h1>{w.heat.eveningTitle(title)}</h1>
        <PotPagesNav potId={potId} title={title} here="evening" />
      </header>
      <p class="warning" role="note">
        {w.heat.unattended}
      </p>
      <Show of={evening}>
        {(answer) =>
          answer.running === null ? (
            <BeforeEvening answer={answer} onBegin={() => void post(path, {})} />
          ) : (
            <>
              <EveningStepNow answer={answer} running={answer.running} onSet={evening.again} />
              <EveningSteps running={answer.running} />
              <EndEarly onEnd={(learn) => void post(`${path}/end`, { learn })} />
            </>
          )
        }
      </Show>
      <p class="caution">
        {w.heat.never} {w.stove.hot}
      </p>
    </div>
  )
}

function BeforeEvening({
  answer,
  onBegin,
}: {
  readonly answer: EveningAnswer
  readonly onBegin: () => void
}) {
  const { w, f } = useWords()
  const nowMs = usePage().state.nowMs.value
  const { cannot, lastDoneMs, tempC, potId } = answer
  const isFresh = lastDoneMs !== null && nowMs - lastDoneMs < JUST_NOW_MS
  return (
    <>
      {isFresh && (
        <section class="panel">
          <h2>{w.heat.doneTitle}</h2>
          <p>{w.heat.done}</p>
          <a class="button main" href={`#/pots/${encodeURIComponent(potId)}/burner`}>
            {w.heat.toBurner}
          </a>
        </section>
      )}
      <p>{w.heat.eveningFor}</p>
      {lastDoneMs !== null && !isFresh && <p class="row-more">{w.heat.lastEvening(f.day(lastDoneMs))}</p>}
      <section class="panel">
        <h2>{w.heat.eveningNeeds}</h2>
        <ul class="dots">
          {w.heat.eveningNeed.map((need) => (
            <li key={need}>{need}</li>
          ))}
        </ul>
        {tempC !== null && (
          <p>
            {w.heat.water}: {f.temp(tempC)}
          </p>
        )}
        {cannot === null ? (
          <button type="button" class="button big" onClick={onBegin}>
            {w.heat.begin}
          </button>
        ) : (
          <p class="warning" role="status">
            {w.heat.cannot[cannot]}
          </p>
        )}
      </section>
      <EveningSteps running={null} />
    </>
  )
}

/** So long an evening that ended stands on top, ms. */
const JUST_NOW_MS = 60 * 60_000

function EndEarly({ onEnd }: { readonly onEnd: (learn: boolean) => void }) {
  const { w } = useWords()
  const [asking, setAsking] = useState(false)
  if (!asking)
    return (
      <button type="button" class="button quiet" onClick={() => setAsking(true)}>
        {w.heat.endEarly}
      </button>
    )
  return (
    <div class="warning">
      <p>{w.heat.endSure}</p>
      <div class="buttons">
        <button type="button" class="button" onClick={() => onEnd(true)}>
          {w.heat.endLearn}
        </button>
        <button type="button" class="button" onClick={() => onEnd(false)}>
          {w.heat.endForget}
        </button>
        <button type="button" class="button quiet" onClick={() => setAsking(false)}>
          {w.heat.goOn}
        </button>
      </div>
    </div>
  )
}
