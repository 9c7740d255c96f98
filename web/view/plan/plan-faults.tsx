import { useWords } from '../page-context.ts'
import type { WrittenPlan } from './use-plan-draft.ts'

/** What is unusual in a plan, and what stands in the way of saving it. */
export function PlanFaults({ plan }: { readonly plan: WrittenPlan }) {
  const { w } = useWords()
  const faults = Object.keys(plan.problems).length + plan.refusals.length
  return (
    <>
      {plan.warnings.length > 0 && (
        <div class="warning" role="status">
          <strong>{w.plan.warnings}</strong>
          <Lines texts={plan.warnings} />
        </div>
      )}
      <div role="alert">
        {faults > 0 && (
          <div class="problem">
            <strong>{w.plan.mendFirst(faults)}</strong>
            <Lines texts={plan.refusals} />
          </div>
        )}
      </div>
    </>
  )
}

const Lines = ({ texts }: { readonly texts: readonly string[] }) => (
  <ul>
    {texts.map((text) => (
      <li key={text}>{text}</li>
    ))}
  </ul>
)
