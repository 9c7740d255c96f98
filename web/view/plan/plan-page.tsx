import { useState } from 'preact/hooks'
import { startingPointsIn } from '#core/words/starting-points-in'
import type { PlanRecord } from '#core/wire/records'
import { type PlanDraft, draftOf, emptyPlanDraft } from '../../state/plan-draft.ts'
import { Show } from '../part/fetched.tsx'
import { useAnswer } from '../part/use-answer.ts'
import { usePage, useWords } from '../page-context.ts'
import { StartingChoice } from '../record/starting-choice.tsx'
import { PlanForm } from './plan-form.tsx'

/** A plan to read and change, or a new one: empty, or begun from one of the starting points. */
export function PlanPage({ planId }: { readonly planId: number | 'new' }) {
  return planId === 'new' ? <NewPlan /> : <KnownPlan planId={planId} />
}

function KnownPlan({ planId }: { readonly planId: number }) {
  const { w } = useWords()
  const unit = usePage().state.settings.value.unit
  const found = useAnswer<PlanRecord>(`/api/plans/${planId}`)
  return (
    <div class="narrow">
      <Show of={found}>
        {({ plan, version }) => (
          <>
            <div class="page-head">
              <div>
                <h1>{w.plan.editTitle(plan.title)}</h1>
                <p class="row-more">{w.plan.version(version)}</p>
              </div>
              <a class="button" href={`#/start/${planId}`}>
                {w.plan.startWith}
              </a>
            </div>
            <PlanForm key={`${version} ${unit}`} planId={planId} start={draftOf(plan, unit)} />
          </>
        )}
      </Show>
    </div>
  )
}

function NewPlan() {
  const { w, f } = useWords()
  const unit = usePage().state.settings.value.unit
  const [from, setFrom] = useState('')
  const point = startingPointsIn(f.person.language).find((p) => p.id === from)
  const start: PlanDraft = point === undefined ? emptyPlanDraft() : draftOf(point.plan, unit)
  return (
    <div class="narrow">
      <h1>{w.plan.newTitle}</h1>
      <StartingChoice from={from} onFrom={setFrom} />
      <PlanForm key={`${from} ${unit}`} planId={null} start={start} />
    </div>
  )
}
