import { EVENING_STEPS } from '#core/bath/learning-evening'
import type { EveningRunning } from '#core/wire/burner'
import { Mark } from '../part/mark.tsx'
import { useWords } from '../page-context.ts'

/** All steps of the evening, with what each is for. */
export function EveningSteps({ running }: { readonly running: EveningRunning | null }) {
  const { w } = useWords()
  const done = running?.stepsDone ?? -1
  return (
    <ol class="evening-steps">
      {EVENING_STEPS.map((step, i) => {
        const state = running === null || i > done ? 'to-come' : i < done ? 'done' : 'running'
        return (
          <li
            key={step}
            class={`step step-${state}`}
            {...(state === 'running' ? { 'aria-current': 'step' as const } : {})}
          >
            <Mark name={state === 'done' ? 'done' : state === 'running' ? 'in-window' : 'no-window'} />
            <span>
              <strong>{w.heat.stepNames[step]}:</strong> {w.heat.stepFor[step]}
              {running !== null && <small> {w.stove.stageStates[state]}</small>}
            </span>
          </li>
        )
      })}
    </ol>
  )
}
