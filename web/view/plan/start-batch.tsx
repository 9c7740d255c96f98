import type { PlanRecord, PotRecord } from '#core/wire/records'
import { Show } from '../part/fetched.tsx'
import { SelectField, TextField } from '../part/field.tsx'
import { useAnswer } from '../part/use-answer.ts'
import { useWords } from '../page-context.ts'
import { PotChoice } from './pot-choice.tsx'
import { StartAmounts } from './start-amounts.tsx'
import { type Start, useStart } from './use-start.ts'

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

interface Known {
  readonly plans: readonly PlanRecord[]
  readonly pots: readonly PotRecord[]
}

function StartForm(props: Known & { readonly planId: number | null }) {
  const { w } = useWords()
  const start = useStart(props.plans, props.pots, props.planId)
  const { plan, pot, change } = start
  return (
    <form
      class="form"
      noValidate
      onSubmit={(e) => {
        e.preventDefault()
        void start.start()
      }}
    >
      <StartFields start={start} plans={props.plans} />
      {plan !== null && (
        <StartAmounts
          stages={plan.stages}
          dryWeightG={start.dryWeightG}
          potLitres={pot?.vessel?.litres ?? null}
        />
      )}
      <PotChoice
        pots={props.pots}
        plan={plan}
        potId={start.draft.potId}
        stageId={start.stageId}
        onPot={(potId) => change({ potId })}
        onStage={(stageId) => change({ stageId })}
      />
      <p class="caution">
        {w.stove.hot} {w.stove.advice}
      </p>
      <StartButtons start={start} />
    </form>
  )
}

function StartFields({ start, plans }: { readonly start: Start; readonly plans: readonly PlanRecord[] }) {
  const { w, f } = useWords()
  const { draft, change, tried } = start
  return (
    <>
      <SelectField
        label={w.plan.whichPlan}
        value={draft.planId}
        error={tried && start.plan === null ? w.plan.chooseOne : undefined}
        options={[['', w.plan.choose], ...plans.map((p) => [String(p.id), p.plan.title] as const)]}
        onValue={(planId) => change({ planId })}
      />
      <TextField
        label={w.plan.batchTitle}
        help={w.plan.batchTitleHelp}
        value={draft.title}
        error={tried && draft.title.trim() === '' ? w.plan.problems['needs-text'] : undefined}
        onValue={(title) => change({ title })}
      />
      <TextField
        kind="number"
        label={w.plan.dryWeight}
        unit={f.weightUnit}
        help={w.plan.weighHelp}
        value={draft.weight}
        error={start.isWeightWrong ? w.plan.weightWrong : undefined}
        onValue={(weight) => change({ weight })}
      />
    </>
  )
}

function StartButtons({ start }: { readonly start: Start }) {
  const { w } = useWords()
  return (
    <>
      <div role="alert">
        {start.refusal !== null && <p class="problem">{w.shell.failed(start.refusal)}</p>}
        {start.tried && !start.isWhole && <p class="problem">{w.plan.startIncomplete}</p>}
      </div>
      <div class="buttons">
        <button type="submit" class="button big">
          {w.plan.startNow}
        </button>
        <button type="button" class="button" onClick={() => void start.weighFirst()}>
          {w.plan.weighFirst}
        </button>
      </div>
    </>
  )
}
