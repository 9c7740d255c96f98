import { useState } from 'preact/hooks'
import type { PotLive } from '#core/wire/live'
import { Mark } from '../part/mark.tsx'
import { usePage, useWords } from '../page-context.ts'

/** The chain of stages as a checklist: what is done, what runs, and the button that begins the next. */
export function StageSteps({ pot }: { readonly pot: PotLive }) {
  const { w } = useWords()
  const { acts } = usePage()
  const [ending, setEnding] = useState(false)
  if (pot.batch === null || pot.stages.length === 0) return null
  const batchId = pot.batch.id
  const next = pot.stages.find((s) => s.state === 'to-come')
  return (
    <section class="steps" aria-label={w.batch.stages}>
      <ol>
        {pot.stages.map((stage) => (
          <li key={stage.id} class={`step step-${stage.state}`}>
            <Mark
              name={stage.state === 'done' ? 'done' : stage.state === 'running' ? 'in-window' : 'no-window'}
            />
            <span>{stage.title}</span> <small>{w.stove.stageStates[stage.state]}</small>
          </li>
        ))}
      </ol>
      <div class="step-buttons">
        {next !== undefined && (
          <button
            type="button"
            class="button"
            onClick={() =>
              void acts.note({ potId: pot.potId, batchId }, { kind: 'stage', stageId: next.id }, 0)
            }
          >
            {w.stove.startStage(next.title)}
          </button>
        )}
        <a class="button quiet" href={`#/batches/${batchId}`}>
          {pot.batch.title}
        </a>
        {ending ? (
          <span class="ask">
            {w.stove.endBatchSure}{' '}
            <button
              type="button"
              class="button"
              onClick={() => {
                setEnding(false)
                void acts.note({ potId: pot.potId, batchId }, { kind: 'end' }, 0)
              }}
            >
              {w.stove.endBatch}
            </button>{' '}
            <button type="button" class="button quiet" onClick={() => setEnding(false)}>
              {w.shell.cancel}
            </button>
          </span>
        ) : (
          <button type="button" class="button quiet" onClick={() => setEnding(true)}>
            {w.stove.endBatch}
          </button>
        )}
      </div>
    </section>
  )
}
