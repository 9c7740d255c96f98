import type { AdditiveDraft, StageDraft } from '../../state/plan-draft.ts'
import { SelectField, TextField } from '../part/field.tsx'
import { useWords } from '../page-context.ts'

/** What goes into the bath, line by line. */
export function AdditiveRows(props: {
  readonly stage: StageDraft
  readonly error: (field: string) => string | undefined
  readonly onStage: (stage: StageDraft) => void
}) {
  const { w } = useWords()
  const { stage } = props
  const put = (additives: readonly AdditiveDraft[]) => props.onStage({ ...stage, additives })
  return (
    <div class="form-part">
      <h3>{w.plan.additives}</h3>
      {stage.additives.map((additive, i) => (
        // Lines have no name of their own while they are typed.
        <AdditiveRow
          key={i}
          additive={additive}
          error={props.error(`additive.${i}`)}
          onAdditive={(next) => put(stage.additives.map((one, at) => (at === i ? next : one)))}
          onRemove={() => put(stage.additives.filter((_, at) => at !== i))}
        />
      ))}
      <div class="buttons">
        <button
          type="button"
          class="button"
          onClick={() => put([...stage.additives, { name: '', amount: '', per: 'percentWof', note: '' }])}
        >
          {w.plan.addAdditive}
        </button>
      </div>
    </div>
  )
}

function AdditiveRow(props: {
  readonly additive: AdditiveDraft
  readonly error: string | undefined
  readonly onAdditive: (additive: AdditiveDraft) => void
  readonly onRemove: () => void
}) {
  const { w } = useWords()
  const { additive, onAdditive } = props
  return (
    <div class="additive-row">
      <TextField
        label={w.plan.additiveName}
        value={additive.name}
        maxLength={200}
        error={props.error}
        onValue={(name) => onAdditive({ ...additive, name })}
      />
      <TextField
        kind="number"
        label={w.plan.additiveAmount}
        value={additive.amount}
        onValue={(amount) => onAdditive({ ...additive, amount })}
      />
      <SelectField
        label={w.plan.additiveUnit}
        value={additive.per}
        options={[
          ['percentWof', w.plan.additiveUnits.percentWof],
          ['gPerL', w.plan.additiveUnits.gPerL],
        ]}
        onValue={(per) => onAdditive({ ...additive, per })}
      />
      <TextField
        label={w.plan.additiveNote}
        value={additive.note}
        maxLength={5000}
        onValue={(note) => onAdditive({ ...additive, note })}
      />
      <button
        type="button"
        class="button quiet"
        aria-label={w.plan.removeAdditive(additive.name)}
        onClick={props.onRemove}
      >
        ×
      </button>
    </div>
  )
}
