import { useState } from 'preact/hooks'
import { Show } from '../part/fetched.tsx'
import { TextField } from '../part/field.tsx'
import { useAnswer } from '../part/use-answer.ts'
import { typedWeight, WeightField } from '../part/weight-field.tsx'
import { usePage, useWords } from '../page-context.ts'
import { BatchHead } from './batch-head.tsx'
import type { BatchWithEntries } from './record-lines.ts'

/** A batch as a plan again, by what was weighed, for other goods. */
export function RepeatPage({ batchId }: { readonly batchId: number }) {
  const found = useAnswer<BatchWithEntries>(`/api/batches/${batchId}`)
  return <Show of={found}>{(batch) => <RepeatForm batch={batch} />}</Show>
}

function RepeatForm({ batch }: { readonly batch: BatchWithEntries }) {
  const { w, f } = useWords()
  const { requests, state } = usePage()
  const { repeat } = w.record
  const [title, setTitle] = useState(repeat.again(batch.title))
  const [weight, setWeight] = useState('')
  const { weightG } = typedWeight(weight, f)
  const isWhole = title.trim() !== '' && weightG !== null

  async function make(): Promise<void> {
    if (!isWhole) return
    const body = { title: title.trim().slice(0, 120), dryWeightG: weightG }
    const made = await requests.ask<{ batchId: number }>('POST', `/api/batches/${batch.id}/repeat`, body)
    if (!made.ok) return void (state.refusal.value = made.why)
    location.hash = `#/differs/${made.value.batchId},${batch.id}`
  }
  return (
    <div class="narrow">
      <BatchHead batch={batch} title={repeat.title(batch.title)} here="repeat" />
      <p>{repeat.help}</p>
      <form
        class="form"
        noValidate
        onSubmit={(e) => {
          e.preventDefault()
          void make()
        }}
      >
        <TextField label={repeat.name} value={title} onValue={setTitle} />
        <WeightField label={repeat.weight} typed={weight} onTyped={setWeight} />
        <div class="buttons">
          <button type="submit" class="button big" disabled={!isWhole}>
            {repeat.go}
          </button>
        </div>
      </form>
    </div>
  )
}
