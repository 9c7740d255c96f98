import { stageNeeds } from '#core/batch/weighing'
import type { Additive, Stage } from '#core/plan/plan'
import { ScrollTable } from '../part/scroll-table.tsx'
import { useWords } from '../page-context.ts'
import type { Catalogue } from '../words/catalogue.ts'
import type { Format } from '../words/format.ts'

/** What goes into the bath, in grams where the dry weight is known. */
export function StageAmounts(props: {
  readonly stage: Stage
  readonly dryWeightG: number | null
  readonly potLitres?: number | null
  readonly title?: string
}) {
  const { w, f } = useWords()
  const { stage, dryWeightG } = props
  const needs =
    dryWeightG === null || !(dryWeightG > 0) ? null : stageNeeds(stage, dryWeightG, props.potLitres ?? null)
  if (stage.additives.length === 0 && stage.liquorRatio === undefined) return null
  return (
    <ScrollTable label={`${stage.title}: ${w.batch.amounts}`} look="plain">
      <caption>{props.title ?? w.batch.amounts}</caption>
      <tbody>
        {stage.additives.map((additive, i) => {
          const needG = needs?.additives[i]?.needG ?? null
          return (
            <tr key={`${additive.name}-${i}`}>
              <th scope="row">{additiveText(additive, w, f)}</th>
              <td>{needG === null ? '–' : f.weight(needG)}</td>
            </tr>
          )
        })}
        {stage.liquorRatio !== undefined && (
          <tr>
            <th scope="row">{w.plan.waterFor(f.amount(stage.liquorRatio))}</th>
            <td>{needs === null || needs.litres === null ? '–' : f.volume(needs.litres)}</td>
          </tr>
        )}
      </tbody>
    </ScrollTable>
  )
}

const additiveText = (additive: Additive, w: Catalogue, f: Format): string =>
  'percentWof' in additive
    ? w.batch.additiveWof(additive.name, f.amount(additive.percentWof))
    : w.batch.additiveGPerL(additive.name, f.amount(additive.gPerL))
