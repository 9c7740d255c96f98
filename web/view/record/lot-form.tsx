import { useState } from 'preact/hooks'
import type { BatchRecord } from '#core/wire/records'
import { TextField } from '../part/field.tsx'
import { typedWeight, WeightField } from '../part/weight-field.tsx'
import { usePage, useWords } from '../page-context.ts'

const EMPTY = { title: '', weight: '', owner: '' }

/** Another lot for a bath: its name, its dry weight, whose it is. */
export function LotForm(props: { readonly batch: BatchRecord; readonly onAdded: () => void }) {
  const { w, f } = useWords()
  const { requests, state } = usePage()
  const [draft, setDraft] = useState(EMPTY)
  const [tried, setTried] = useState(false)
  const { weightG, isWrong } = typedWeight(draft.weight, f)
  const hasTitle = draft.title.trim() !== ''

  async function put(): Promise<void> {
    setTried(true)
    if (!hasTitle || isWrong) return
    const { who } = state.settings.peek()
    const by = who === '' ? {} : { who }
    const path = `/api/batches/${props.batch.id}/lots`
    const made = await requests.ask<BatchRecord>('POST', path, {
      title: draft.title.trim(),
      dryWeightG: weightG,
      ...by,
    })
    if (!made.ok) return void (state.refusal.value = made.why)
    if (draft.owner.trim() !== '') {
      const goods = { kind: 'goods', body: { owner: draft.owner.trim() }, ...by }
      const noted = await requests.ask('POST', `/api/batches/${made.value.id}/entries`, goods)
      if (!noted.ok) state.refusal.value = noted.why
    }
    setDraft(EMPTY)
    setTried(false)
    props.onAdded()
  }
  return (
    <form
      class="form"
      noValidate
      onSubmit={(e) => {
        e.preventDefault()
        void put()
      }}
    >
      <div class="field-grid">
        <TextField
          label={w.record.lots.name}
          value={draft.title}
          error={tried && !hasTitle ? w.plan.problems['needs-text'] : undefined}
          onValue={(title) => setDraft({ ...draft, title })}
        />
        <WeightField
          label={w.record.weigh.dryWeight}
          typed={draft.weight}
          onTyped={(weight) => setDraft({ ...draft, weight })}
        />
        <TextField
          label={w.record.lots.owner}
          help={w.plan.optional}
          value={draft.owner}
          onValue={(owner) => setDraft({ ...draft, owner })}
        />
      </div>
      <div class="buttons">
        <button type="submit" class="button">
          {w.record.lots.put}
        </button>
      </div>
    </form>
  )
}
