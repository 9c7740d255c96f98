import type { LineOf } from '#core/batch/record-line'
import type { Stage } from '#core/plan/plan'
import { useWords } from '../page-context.ts'
import type { LotOnShelf } from './lot-on-shelf.ts'
import { WeighRow } from './weigh-row.tsx'

/** What the server reckons for a stage; grams and litres, exact. */
export interface StageToWeigh {
  readonly stageId: string
  readonly litres: number | null
  readonly additives: readonly { readonly name: string; readonly needG: number | null }[]
}

/** One stage's bowls and water. */
export function WeighStage(props: {
  readonly batchId: number
  readonly stage: Stage
  readonly no: number
  readonly needed: StageToWeigh
  readonly weighings: readonly LineOf<'weighing'>[]
  readonly lots: readonly LotOnShelf[]
  readonly onWeighed: () => void
}) {
  const { w, f } = useWords()
  const { stage, needed } = props
  return (
    <section class="panel" aria-label={stage.title}>
      <div class="part-head">
        <h2>{w.record.weigh.stage(props.no, stage.title)}</h2>
        {needed.litres !== null && <p class="water">{w.record.weigh.water(f.volume(needed.litres))}</p>}
      </div>
      <ul class="lines">
        {needed.additives.map(({ name, needG }) => (
          <WeighRow
            key={name}
            batchId={props.batchId}
            stageId={stage.id}
            name={name}
            needG={needG}
            line={props.weighings.findLast(({ body }) => body.stageId === stage.id && body.additive === name)}
            lots={props.lots.filter((lot) => sameName(lot.material, name))}
            onWeighed={props.onWeighed}
          />
        ))}
      </ul>
    </section>
  )
}

const sameName = (one: string, other: string): boolean =>
  one.trim().toLowerCase() === other.trim().toLowerCase()
