import { useState } from 'preact/hooks'
import type { PlanRecord, PotRecord } from '#core/wire/records'
import { Show } from '../part/fetched.tsx'
import { SelectField, TextField } from '../part/field.tsx'
import { useAnswer } from '../part/use-answer.ts'
import { typedWeight, WeightField } from '../part/weight-field.tsx'
import { usePage, useWords } from '../page-context.ts'
import { ClassMade, type MadeBatch } from './class-made.tsx'

/** Six pots from one template, in one go. */
export function ClassPage() {
  const { w } = useWords()
  const plans = useAnswer<readonly PlanRecord[]>('/api/plans')
  const pots = useAnswer<readonly PotRecord[]>('/api/pots')
  return (
    <div class="narrow">
      <h1>{w.record.class.title}</h1>
      <Show of={plans}>
        {(allPlans) => <Show of={pots}>{(allPots) => <ClassForm plans={allPlans} pots={allPots} />}</Show>}
      </Show>
    </div>
  )
}

function ClassForm(props: { readonly plans: readonly PlanRecord[]; readonly pots: readonly PotRecord[] }) {
  const { w, f } = useWords()
  const { requests, state } = usePage()
  const words = w.record.class
  const [title, setTitle] = useState('')
  const [planId, setPlanId] = useState(String(props.plans[0]?.id ?? ''))
  const [weight, setWeight] = useState('')
  const [potIds, setPotIds] = useState<readonly string[]>(props.pots.map((pot) => pot.id))
  const [made, setMade] = useState<readonly MadeBatch[] | null>(null)
  const plan = props.plans.find((one) => String(one.id) === planId)
  const { weightG } = typedWeight(weight, f)
  const isWhole = plan !== undefined && title.trim() !== '' && weightG !== null && potIds.length > 0

  async function make(): Promise<void> {
    if (!isWhole) return
    const pots = props.pots.filter((pot) => potIds.includes(pot.id)).map((pot) => ({ potId: pot.id }))
    const body = { title: title.trim(), planId: plan.id, dryWeightG: weightG, pots }
    const answer = await requests.ask<readonly MadeBatch[]>('POST', '/api/class', body)
    if (answer.ok) setMade(answer.value)
    else state.refusal.value = answer.why
  }
  if (made !== null && plan !== undefined)
    return <ClassMade made={made} firstStageId={plan.plan.stages[0]!.id} />
  return (
    <form
      class="form"
      noValidate
      onSubmit={(e) => {
        e.preventDefault()
        void make()
      }}
    >
      <TextField label={words.name} value={title} maxLength={80} onValue={setTitle} />
      <SelectField
        label={w.plan.whichPlan}
        value={planId}
        options={props.plans.map((one) => [String(one.id), one.plan.title] as const)}
        onValue={setPlanId}
      />
      <WeightField label={words.weight} typed={weight} onTyped={setWeight} />
      <fieldset class="choice">
        <legend>{words.pots}</legend>
        {props.pots.map((pot) => (
          <label key={pot.id}>
            <input
              type="checkbox"
              checked={potIds.includes(pot.id)}
              onChange={(e) =>
                setPotIds(
                  e.currentTarget.checked ? [...potIds, pot.id] : potIds.filter((id) => id !== pot.id),
                )
              }
            />
            {pot.title}
            {pot.probe === null && <small>{words.byHand}</small>}
          </label>
        ))}
      </fieldset>
      {potIds.length === 0 && <p class="field-error">{words.none}</p>}
      <p class="caution">
        {w.stove.hot} {w.stove.advice}
      </p>
      <div class="buttons">
        <button type="submit" class="button big" disabled={!isWhole}>
          {words.make(potIds.length)}
        </button>
      </div>
    </form>
  )
}
