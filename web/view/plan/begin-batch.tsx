import { useState } from 'preact/hooks'
import type { Shortage } from '#core/batch/stock'
import type { BatchRecord, PotRecord } from '#core/wire/records'
import { Show } from '../part/fetched.tsx'
import { useAnswer } from '../part/use-answer.ts'
import { usePage, useWords } from '../page-context.ts'
import { Shortages } from '../record/shortages.tsx'
import { PotChoice } from './pot-choice.tsx'

/** A batch that was only planned goes onto a pot. */
export function BeginBatch({ batchId }: { readonly batchId: number }) {
  const { w } = useWords()
  const batch = useAnswer<BatchRecord>(`/api/batches/${batchId}`)
  const pots = useAnswer<readonly PotRecord[]>('/api/pots')
  return (
    <div class="narrow">
      <Show of={batch}>
        {(found) => (
          <>
            <h1>{w.plan.beginTitle(found.title)}</h1>
            <Show of={pots}>{(all) => <BeginForm batch={found} pots={all} />}</Show>
          </>
        )}
      </Show>
    </div>
  )
}

function BeginForm(props: { readonly batch: BatchRecord; readonly pots: readonly PotRecord[] }) {
  const { w } = useWords()
  const { requests, state } = usePage()
  const { batch } = props
  const { asked } = useAnswer<{ readonly shortages: readonly Shortage[] }>(`/api/batches/${batch.id}/needs`)
  const [potId, setPotId] = useState(batch.potId ?? '')
  const [stageId, setStageId] = useState(batch.plan.stages[0]?.id ?? '')

  async function begin(): Promise<void> {
    const { who } = state.settings.peek()
    const path = `/api/batches/${batch.id}/stages/${encodeURIComponent(stageId)}/start`
    const begun = await requests.ask('POST', path, { potId, who: who === '' ? null : who })
    if (begun.ok) location.hash = `#/pots/${encodeURIComponent(potId)}`
    else state.refusal.value = begun.why
  }
  return (
    <form
      class="form"
      onSubmit={(e) => {
        e.preventDefault()
        void begin()
      }}
    >
      <PotChoice
        pots={props.pots}
        plan={batch.plan}
        potId={potId}
        stageId={stageId}
        onPot={setPotId}
        onStage={setStageId}
      />
      {asked?.ok === true && <Shortages shortages={asked.value.shortages} stages={batch.plan.stages} />}
      <p class="caution">
        {w.stove.hot} {w.stove.advice}
      </p>
      <div class="buttons">
        <button type="submit" class="button big" disabled={potId === ''}>
          {w.plan.startNow}
        </button>
      </div>
    </form>
  )
}
