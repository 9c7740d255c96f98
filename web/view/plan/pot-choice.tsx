import type { Plan } from '#core/plan/plan'
import type { PotRecord } from '#core/wire/records'
import { SelectField } from '../part/field.tsx'
import { usePage, useWords } from '../page-context.ts'

/** Where a batch goes: a pot, and the stage it begins with. Pots that are busy say with what. */
export function PotChoice(props: {
  readonly pots: readonly PotRecord[]
  readonly plan: Plan | null
  readonly potId: string
  readonly stageId: string
  readonly onPot: (potId: string) => void
  readonly onStage: (stageId: string) => void
}) {
  const { w } = useWords()
  const live = usePage().state.stove.value.pots ?? []
  const busy = new Map(live.map((pot) => [pot.potId, pot.batch?.title ?? null]))
  const potText = (pot: PotRecord): string => {
    const batch = busy.get(pot.id) ?? null
    const probe = pot.probe === null ? w.plan.noProbe : w.plan.probeIn(pot.probe)
    return batch === null ? `${pot.title} (${probe})` : `${pot.title} (${w.plan.potBusy(batch)})`
  }
  if (props.pots.length === 0)
    return (
      <p>
        <a href="#/probes">{w.plan.noPots}</a>
      </p>
    )
  return (
    <div class="field-grid">
      <SelectField
        label={w.plan.whichPot}
        value={props.potId}
        options={[['', w.plan.choose], ...props.pots.map((pot) => [pot.id, potText(pot)] as const)]}
        onValue={props.onPot}
      />
      {props.plan !== null && (
        <SelectField
          label={w.plan.firstStage}
          value={props.stageId}
          options={props.plan.stages.map((stage) => [stage.id, stage.title] as const)}
          onValue={props.onStage}
        />
      )}
    </div>
  )
}
