import type { Shortage } from '#core/batch/stock'
import type { Stage } from '#core/plan/plan'
import { useWords } from '../page-context.ts'

/** What will run out in the middle of the batch, said before it begins. */
export function Shortages(props: {
  readonly shortages: readonly Shortage[]
  readonly stages: readonly Stage[]
}) {
  const { w, f } = useWords()
  if (props.shortages.length === 0) return null
  return (
    <div class="warning" role="status">
      <strong>{w.record.weigh.short}</strong>
      <ul>
        {props.shortages.map(({ material, stageId, leftG, needG }) => (
          <li key={material}>
            {w.record.weigh.shortLine(
              material,
              f.weight(leftG),
              f.weight(needG),
              props.stages.find((s) => s.id === stageId)?.title ?? stageId,
            )}
          </li>
        ))}
      </ul>
    </div>
  )
}
