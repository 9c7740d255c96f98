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
  const change = (at: number, part: Partial<AdditiveDraft>) =>
    put(stage.additives.map((additive, i) => (i === at ? { ...additive, ...part } : additive)))
  return (
    <div class="form-part">
      <h3>{w.plan.additives}</h3>
      {stage.additives.map((additive, i) => (
        // Lines have no name of their own while they are typed.
        <div class="additive-row" key={i}>
          <TextField
            label={w.plan.additiveName}
            value={additive.name}
            error={props.error(`additive.${i}`)}
            onValue={(name) => change(i, { name })}
          />
          <TextField
            kind="number"
            label={w.plan.additiveAmount}
            value={additive.amount}
            onValue={(amount) => change(i, { amount })}
          />
          <SelectField
            label={w.plan.additiveUnit}
            value={additive.per}
            options={[
              ['percentWof', w.plan.additiveUnits.percentWof],
              ['gPerL', w.plan.additiveUnits.gPerL],
            ]}
            onValue={(per) => change(i, { per })}
          />
          <button
            type="button"
            class="button quiet"
            aria-label={w.plan.removeAdditive(additive.name)}
            onClick={() => put(stage.additives.filter((_, at) => at !== i))}
          >
            ×
          </button>
        </div>
      ))}
      <div class="buttons">
        <button
          type="button"
          class="button"
          onClick={() => put([...stage.additives, { name: '', amount: '', per: 'percentWof' }])}
        >
          {w.plan.addAdditive}
        </button>
      </div>
    </div>
  )
}
