import { useState } from 'preact/hooks'
import { checkPlan } from '#core/plan/check-plan'
import { USUAL_PLACE, warnPlan } from '#core/plan/warn-plan'
import { planWarningText } from '#core/words/plan-warning-text'
import type { PlanRecord } from '#core/wire/records'
import type { PlanDraft } from '../../state/plan-draft.ts'
import { type DraftProblems, planFromDraft } from '../../state/plan-from-draft.ts'
import { useAnswer } from '../part/use-answer.ts'
import { usePage, useWords } from '../page-context.ts'

/** A plan while it is written. */
export interface WrittenPlan {
  readonly draft: PlanDraft
  readonly change: (draft: PlanDraft) => void
  /** Beside their fields, once saving was tried. */
  readonly problems: DraftProblems
  /** What the plan as a whole is refused for. */
  readonly refusals: readonly string[]
  /** Unusual for the goods or this place; in nobody's way. */
  readonly warnings: readonly string[]
  readonly isSaved: boolean
  readonly save: () => Promise<void>
}

/** @param planId `null`: saving makes a new plan, else a new version of this one. */
export function usePlanDraft(planId: number | null, start: PlanDraft): WrittenPlan {
  const { w } = useWords()
  const { state, requests } = usePage()
  const [draft, setDraft] = useState(start)
  const [tried, setTried] = useState(false)
  const [refusals, setRefusals] = useState<readonly string[]>([])
  const [isSaved, setSaved] = useState(false)
  const read = planFromDraft(draft, state.settings.value.unit)
  const warnings = useWarnings(read)

  async function save(): Promise<void> {
    setTried(true)
    if (!read.ok) return
    const faults = checkPlan(read.plan)
    if (faults.length > 0) return setRefusals(faults.map(w.said))
    const answer =
      planId === null
        ? await requests.ask<PlanRecord>('POST', '/api/plans', read.plan)
        : await requests.ask<PlanRecord>('PUT', `/api/plans/${planId}`, read.plan)
    if (!answer.ok) return setRefusals([answer.why])
    setSaved(true)
    if (planId === null) location.hash = `#/plans/${answer.value.id}`
  }
  function change(next: PlanDraft): void {
    setDraft(next)
    setSaved(false)
    setRefusals([])
  }
  return {
    draft,
    change,
    problems: tried && !read.ok ? read.problems : {},
    refusals,
    warnings,
    isSaved,
    save,
  }
}

function useWarnings(read: ReturnType<typeof planFromDraft>): readonly string[] {
  const { f } = useWords()
  const { asked } = useAnswer<{ readonly boilC: number }>('/api/studio')
  const place = asked?.ok === true ? { ...USUAL_PLACE, boilC: asked.value.boilC } : USUAL_PLACE
  if (!read.ok) return []
  const titles = new Map(read.plan.stages.map((stage) => [stage.id, stage.title]))
  return warnPlan(read.plan, place).map((warning) =>
    planWarningText(warning, titles.get(warning.stageId) ?? warning.stageId, f.person),
  )
}
