import { useState } from 'preact/hooks'
import { checkPlan } from '#core/plan/check-plan'
import { planWarningText } from '#core/plan/plan-warning-text'
import { USUAL_PLACE, warnPlan } from '#core/plan/warn-plan'
import type { PlanRecord } from '#core/wire/records'
import { type PlanDraft, type StageDraft, newStage } from '../../state/plan-draft.ts'
import { type DraftProblems, planFromDraft } from '../../state/plan-from-draft.ts'
import { TextField } from '../part/field.tsx'
import { useAnswer } from '../part/use-answer.ts'
import { usePage, useWords } from '../page-context.ts'
import { StageForm } from './stage-form.tsx'

/** Writes a plan. Faults stand beside their field and are told once more above the button that found them. */
export function PlanForm(props: { readonly planId: number | null; readonly start: PlanDraft }) {
  const { w, f } = useWords()
  const { state, requests } = usePage()
  const [draft, setDraft] = useState(props.start)
  const [tried, setTried] = useState(false)
  const [refusals, setRefusals] = useState<readonly string[]>([])
  const [saved, setSaved] = useState(false)
  const { unit } = state.settings.value
  const read = planFromDraft(draft, unit)
  const { asked } = useAnswer<{ readonly boilC: number }>('/api/studio')
  const place = asked?.ok === true ? { ...USUAL_PLACE, boilC: asked.value.boilC } : USUAL_PLACE
  const problems: DraftProblems = tried && !read.ok ? read.problems : {}
  const warnings = read.ok
    ? warnPlan(read.plan, place).map((warning) => planWarningText(warning, tempWords(f)))
    : []

  function change(next: PlanDraft): void {
    setDraft(next)
    setSaved(false)
    setRefusals([])
  }
  const changeStage = (stage: StageDraft) =>
    change({ ...draft, stages: draft.stages.map((s) => (s.key === stage.key ? stage : s)) })

  async function save(): Promise<void> {
    setTried(true)
    if (!read.ok) return
    const faults = checkPlan(read.plan)
    if (faults.length > 0) return setRefusals(faults)
    const answer =
      props.planId === null
        ? await requests.ask<PlanRecord>('POST', '/api/plans', read.plan)
        : await requests.ask<PlanRecord>('PUT', `/api/plans/${props.planId}`, read.plan)
    if (!answer.ok) return setRefusals([answer.why])
    setSaved(true)
    if (props.planId === null) location.hash = `#/plans/${answer.value.id}`
  }

  return (
    <form
      class="form"
      noValidate
      onSubmit={(e) => {
        e.preventDefault()
        void save()
      }}
    >
      <div class="field-grid">
        <TextField
          label={w.plan.title}
          value={draft.title}
          error={problems['title'] && w.plan.problems[problems['title']]}
          onValue={(title) => change({ ...draft, title })}
        />
        <TextField
          label={w.plan.fibre}
          help={w.plan.fibreHelp}
          value={draft.fibre}
          onValue={(fibre) => change({ ...draft, fibre })}
        />
      </div>
      {draft.stages.map((stage, i) => (
        <StageForm
          key={stage.key}
          stage={stage}
          no={i + 1}
          count={draft.stages.length}
          problems={problems}
          onStage={changeStage}
          onMove={(to) => change({ ...draft, stages: moved(draft.stages, i, to) })}
          onRemove={() => change({ ...draft, stages: draft.stages.filter((s) => s.key !== stage.key) })}
        />
      ))}
      <button
        type="button"
        class="button"
        onClick={() => change({ ...draft, stages: [...draft.stages, newStage(nextKey(draft))] })}
      >
        {w.plan.addStage}
      </button>
      <p class="caution">{w.plan.metals}</p>
      {warnings.length > 0 && (
        <div class="warning" role="status">
          <strong>{w.plan.warnings}</strong>
          <ul>
            {warnings.map((text) => (
              <li key={text}>{text}</li>
            ))}
          </ul>
        </div>
      )}
      <div role="alert">
        {tried && (!read.ok || refusals.length > 0) && (
          <div class="problem">
            <strong>{w.plan.mendFirst(read.ok ? refusals.length : Object.keys(read.problems).length)}</strong>
            <ul>
              {refusals.map((text) => (
                <li key={text}>{text}</li>
              ))}
            </ul>
          </div>
        )}
      </div>
      <div class="buttons">
        <button type="submit" class="button main">
          {w.plan.save}
        </button>
        <span role="status">{saved ? w.plan.saved : ''}</span>
      </div>
    </form>
  )
}

const nextKey = (draft: PlanDraft): number => Math.max(0, ...draft.stages.map((s) => s.key)) + 1

function moved(stages: readonly StageDraft[], from: number, to: number): readonly StageDraft[] {
  const rest = stages.filter((_, i) => i !== from)
  return [...rest.slice(0, to), stages[from]!, ...rest.slice(to)]
}

const tempWords = (f: ReturnType<typeof useWords>['f']) => ({
  temp: (tempC: number) => f.temp(tempC),
  difference: (dropC: number) => f.drop(dropC),
  rate: (rateCPerMin: number) => f.pace(rateCPerMin),
})
