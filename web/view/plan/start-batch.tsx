import { useState } from 'preact/hooks'
import { readNumber } from '#core/measure/read-number'
import type { BatchRecord, PlanRecord, PotRecord } from '#core/wire/records'
import { StageAmounts } from '../batch/stage-amounts.tsx'
import { Show } from '../part/fetched.tsx'
import { SelectField, TextField } from '../part/field.tsx'
import { useAnswer } from '../part/use-answer.ts'
import { usePage, useWords } from '../page-context.ts'
import { PotChoice } from './pot-choice.tsx'

/** A plan, goods and a pot become a batch. */
export function StartBatch({ planId }: { readonly planId: number | null }) {
  const { w } = useWords()
  const plans = useAnswer<readonly PlanRecord[]>('/api/plans')
  const pots = useAnswer<readonly PotRecord[]>('/api/pots')
  return (
    <div class="narrow">
      <h1>{w.plan.startTitle}</h1>
      <Show of={plans}>
        {(allPlans) => (
          <Show of={pots}>
            {(allPots) =>
              allPlans.length === 0 ? (
                <p>
                  <a href="#/plans/new">{w.plan.noPlans}</a>
                </p>
              ) : (
                <StartForm plans={allPlans} pots={allPots} planId={planId} />
              )
            }
          </Show>
        )}
      </Show>
    </div>
  )
}

function StartForm(props: {
  readonly plans: readonly PlanRecord[]
  readonly pots: readonly PotRecord[]
  readonly planId: number | null
}) {
  const { w, f } = useWords()
  const { requests, state } = usePage()
  const [planId, setPlanId] = useState(String(props.planId ?? ''))
  const [title, setTitle] = useState('')
  const [weight, setWeight] = useState('')
  const [potId, setPotId] = useState('')
  const [stageId, setStageId] = useState('')
  const [refusal, setRefusal] = useState<string | null>(null)
  const [tried, setTried] = useState(false)
  const record = props.plans.find((p) => String(p.id) === planId) ?? null
  const plan = record?.plan ?? null
  const typed = readNumber(weight)
  const dryWeightG = typed === null ? null : f.gramsOf(typed)
  const weightError = weight.trim() !== '' && !(dryWeightG !== null && dryWeightG > 0)
  const pot = props.pots.find((p) => p.id === potId) ?? null
  const first = plan?.stages.find((s) => s.id === stageId)?.id ?? plan?.stages[0]?.id ?? ''
  const named = record !== null && title.trim() !== '' && !weightError
  const whole = named && pot !== null

  const make = () =>
    requests.ask<BatchRecord>('POST', '/api/batches', {
      title: title.trim(),
      planId: record?.id,
      dryWeightG: weight.trim() === '' ? null : dryWeightG,
    })

  async function weighFirst(): Promise<void> {
    setTried(true)
    if (!named) return
    const made = await make()
    if (made.ok) location.hash = `#/weigh/${made.value.id}`
    else setRefusal(made.why)
  }

  async function start(): Promise<void> {
    setTried(true)
    if (!whole) return
    const made = await make()
    if (!made.ok) return setRefusal(made.why)
    const { who } = state.settings.peek()
    const path = `/api/batches/${made.value.id}/stages/${encodeURIComponent(first)}/start`
    const begun = await requests.ask('POST', path, { potId, who: who === '' ? null : who })
    if (begun.ok) location.hash = `#/pots/${encodeURIComponent(potId)}`
    else {
      state.refusal.value = begun.why
      location.hash = `#/begin/${made.value.id}`
    }
  }

  return (
    <form
      class="form"
      noValidate
      onSubmit={(e) => {
        e.preventDefault()
        void start()
      }}
    >
      <SelectField
        label={w.plan.whichPlan}
        value={planId}
        error={tried && record === null ? w.plan.chooseOne : undefined}
        options={[['', w.plan.choose], ...props.plans.map((p) => [String(p.id), p.plan.title] as const)]}
        onValue={setPlanId}
      />
      <TextField
        label={w.plan.batchTitle}
        help={w.plan.batchTitleHelp}
        value={title}
        error={tried && title.trim() === '' ? w.plan.problems['needs-text'] : undefined}
        onValue={setTitle}
      />
      <TextField
        kind="number"
        label={w.plan.dryWeight}
        unit={f.weightUnit}
        help={w.plan.weighHelp}
        value={weight}
        error={weightError ? w.plan.weightWrong : undefined}
        onValue={setWeight}
      />
      {plan !== null && (
        <section class="panel">
          <h2>{w.plan.weighTitle}</h2>
          {dryWeightG === null && <p class="row-more">{w.plan.weighNeedsWeight}</p>}
          {plan.stages.every((s) => s.additives.length === 0) && <p>{w.plan.weighNothing}</p>}
          {plan.stages
            .filter((stage) => stage.additives.length > 0)
            .map((stage) => (
              <StageAmounts
                key={stage.id}
                title={stage.title}
                stage={stage}
                dryWeightG={dryWeightG}
                potLitres={pot?.vessel?.litres ?? null}
              />
            ))}
          <p class="caution">{w.plan.metals}</p>
        </section>
      )}
      <PotChoice
        pots={props.pots}
        plan={plan}
        potId={potId}
        stageId={first}
        onPot={setPotId}
        onStage={setStageId}
      />
      <p class="caution">
        {w.stove.hot} {w.stove.advice}
      </p>
      <div role="alert">
        {refusal !== null && <p class="problem">{w.shell.failed(refusal)}</p>}
        {tried && !whole && <p class="problem">{w.plan.startIncomplete}</p>}
      </div>
      <div class="buttons">
        <button type="submit" class="button big">
          {w.plan.startNow}
        </button>
        <button type="button" class="button" onClick={() => void weighFirst()}>
          {w.plan.weighFirst}
        </button>
      </div>
    </form>
  )
}
