import type { PlanDraft, StageDraft } from '../../state/plan-draft.ts'
import { newStage } from '../../state/plan-draft.ts'
import { TextField } from '../part/field.tsx'
import { useWords } from '../page-context.ts'
import { AlarmRows } from './alarm-rows.tsx'
import { PlanFaults } from './plan-faults.tsx'
import { StageForm } from './stage-form.tsx'
import { type WrittenPlan, usePlanDraft } from './use-plan-draft.ts'

/** Writes a plan. Faults stand beside their field and are told once more above the button that found them. */
export function PlanForm(props: { readonly planId: number | null; readonly start: PlanDraft }) {
  const { w } = useWords()
  const plan = usePlanDraft(props.planId, props.start)
  const { draft, change } = plan
  return (
    <form
      class="form"
      noValidate
      onSubmit={(e) => {
        e.preventDefault()
        void plan.save()
      }}
    >
      <PlanHead plan={plan} />
      {draft.stages.map((stage, i) => (
        <StageForm
          key={stage.key}
          stage={stage}
          no={i + 1}
          count={draft.stages.length}
          problems={plan.problems}
          onStage={(next) =>
            change({ ...draft, stages: draft.stages.map((s) => (s.key === next.key ? next : s)) })
          }
          onMove={(to) => change({ ...draft, stages: moved(draft.stages, i, to) })}
          onRemove={() => change({ ...draft, stages: draft.stages.filter((s) => s.key !== stage.key) })}
        />
      ))}
      <PlanEnd plan={plan} />
      <PlanFaults plan={plan} />
      <div class="buttons">
        <button type="submit" class="button main">
          {w.plan.save}
        </button>
        <span role="status">{plan.isSaved ? w.plan.saved : ''}</span>
      </div>
    </form>
  )
}

function PlanHead({ plan: { draft, change, problems } }: { readonly plan: WrittenPlan }) {
  const { w } = useWords()
  return (
    <div class="field-grid">
      <TextField
        label={w.plan.title}
        value={draft.title}
        maxLength={200}
        error={problems['title'] && w.plan.problems[problems['title']]}
        onValue={(title) => change({ ...draft, title })}
      />
      <TextField
        label={w.plan.fibre}
        help={w.plan.fibreHelp}
        value={draft.fibre}
        maxLength={200}
        onValue={(fibre) => change({ ...draft, fibre })}
      />
    </div>
  )
}

function PlanEnd({ plan: { draft, change, problems } }: { readonly plan: WrittenPlan }) {
  const { w } = useWords()
  return (
    <>
      <button
        type="button"
        class="button"
        onClick={() => change({ ...draft, stages: [...draft.stages, newStage(nextKey(draft))] })}
      >
        {w.plan.addStage}
      </button>
      <AlarmRows
        alarms={draft.alarms}
        problems={problems}
        onAlarms={(alarms) => change({ ...draft, alarms })}
      />
      <p class="caution">{w.plan.metals}</p>
    </>
  )
}

const nextKey = (draft: PlanDraft): number => Math.max(0, ...draft.stages.map((s) => s.key)) + 1

function moved(stages: readonly StageDraft[], from: number, to: number): readonly StageDraft[] {
  const rest = stages.filter((_, i) => i !== from)
  return [...rest.slice(0, to), stages[from]!, ...rest.slice(to)]
}
