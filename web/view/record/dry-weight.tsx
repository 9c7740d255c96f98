import { useState } from 'preact/hooks'
import { typedWeight, WeightField } from '../part/weight-field.tsx'
import { usePage, useWords } from '../page-context.ts'
import type { BatchWithEntries } from './record-lines.ts'

/** The weight that everything is reckoned from. Changing it is a correction: the old one stays on record. */
export function DryWeight(props: { readonly batch: BatchWithEntries; readonly onKept: () => void }) {
  const { w, f } = useWords()
  const { requests, state } = usePage()
  const { batch, onKept } = props
  const known = batch.dryWeightG === null ? '' : f.weightField(batch.dryWeightG)
  const [typed, setTyped] = useState<string | null>(null)
  const value = typed ?? known
  const { weightG } = typedWeight(value, f)

  async function keep(): Promise<void> {
    if (weightG === null) return
    const { who } = state.settings.peek()
    const body = { dryWeightG: weightG, ...(who === '' ? {} : { who }) }
    const kept = await requests.ask('PUT', `/api/batches/${batch.id}`, body)
    if (!kept.ok) return void (state.refusal.value = kept.why)
    setTyped(null)
    onKept()
  }
  return (
    <form
      class="form"
      noValidate
      onSubmit={(e) => {
        e.preventDefault()
        void keep()
      }}
    >
      <div class="one-line">
        <WeightField label={w.record.weigh.dryWeight} typed={value} onTyped={setTyped} />
        <button type="submit" class="button" disabled={value === known || weightG === null}>
          {w.record.weigh.keepWeight}
        </button>
      </div>
      <p class="field-help">{known === '' ? w.record.weigh.dryWeightHelp : w.record.weigh.corrected}</p>
    </form>
  )
}
