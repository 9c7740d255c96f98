import { shortages } from '#core/batch/stock'
import { stageNeeds } from '#core/batch/weighing'
import type { Stage } from '#core/plan/plan'
import { StageAmounts } from '../batch/stage-amounts.tsx'
import { useAnswer } from '../part/use-answer.ts'
import { useWords } from '../page-context.ts'
import { Shortages } from '../record/shortages.tsx'
import type { LotOnShelf } from '../record/lot-on-shelf.ts'

/** What a new batch will take, stage by stage, and what of it the shelf hasn't got, before anything is weighed. */
export function StartAmounts(props: {
  readonly stages: readonly Stage[]
  readonly dryWeightG: number | null
  readonly potLitres: number | null
}) {
  const { w } = useWords()
  const { stages, dryWeightG, potLitres } = props
  const weighed = stages.filter((stage) => stage.additives.length > 0)
  return (
    <section class="panel">
      <h2>{w.plan.weighTitle}</h2>
      {dryWeightG === null && <p class="row-more">{w.plan.weighNeedsWeight}</p>}
      {weighed.length === 0 && <p>{w.plan.weighNothing}</p>}
      {weighed.map((stage) => (
        <StageAmounts
          key={stage.id}
          title={stage.title}
          stage={stage}
          dryWeightG={dryWeightG}
          potLitres={potLitres}
        />
      ))}
      {dryWeightG !== null && dryWeightG > 0 && (
        <ShortOnShelf stages={stages} dryWeightG={dryWeightG} potLitres={potLitres} />
      )}
      <p class="caution">{w.plan.metals}</p>
    </section>
  )
}

function ShortOnShelf(props: {
  readonly stages: readonly Stage[]
  readonly dryWeightG: number
  readonly potLitres: number | null
}) {
  const { asked } = useAnswer<readonly LotOnShelf[]>('/api/stock')
  if (asked?.ok !== true) return null
  const lots = asked.value
  const needs = props.stages.flatMap((stage) =>
    stageNeeds(stage, props.dryWeightG, props.potLitres).additives.map(({ name, needG }) => ({
      stageId: stage.id,
      material: name,
      needG: needG ?? 0,
    })),
  )
  const short = shortages(needs, lots, new Map(lots.map(({ id, leftG }) => [id, leftG])))
  return <Shortages shortages={short} stages={props.stages} />
}
