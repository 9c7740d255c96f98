import { batchCost } from '#core/batch/cost'
import { currentRecord } from '#core/batch/current-record'
import { useWords } from '../page-context.ts'
import { type BatchWithEntries, recordLines, standingOf } from './record-lines.ts'
import { RecordPart } from './record-part.tsx'
import type { LotOnShelf } from './weigh-page.tsx'

/** What a batch cost: goods, what was weighed at its lot's price, energy and minutes. */
export function CostPart(props: {
  readonly batch: BatchWithEntries
  readonly lots: readonly LotOnShelf[]
  readonly onChange: () => void
}) {
  const { w, f } = useWords()
  const { batch, lots } = props
  const lines = recordLines(batch.entries)
  const record = currentRecord(lines)
  const { goodsCost, energyKWh, pricePerKWh, handsOnMin, hourlyWage, currency } = record.cost
  const cost = batchCost({
    goodsCost: goodsCost ?? null,
    energyKWh: energyKWh ?? null,
    pricePerKWh: pricePerKWh ?? null,
    handsOnMin: handsOnMin ?? null,
    hourlyWage: hourlyWage ?? null,
    materials: record.weighings.map(({ body }) => ({
      name: body.additive,
      grams: body.weighedG,
      pricePerKg: lots.find((lot) => lot.id === body.lotId)?.pricePerKg ?? null,
    })),
  })
  const money = (value: number) => `${f.amount(value, 2)} ${currency ?? ''}`.trim()
  return (
    <RecordPart
      batchId={batch.id}
      kind="cost"
      lines={standingOf(lines, 'cost')}
      names={{ batches: [], stages: batch.plan.stages }}
      onChange={props.onChange}
    >
      {cost.total > 0 && (
        <table>
          <caption>{w.record.cost.title}</caption>
          <tbody>
            {(['goods', 'materials', 'energy', 'work', 'total'] as const).map((part) => (
              <tr key={part}>
                <th scope="row">{w.record.cost[part]}</th>
                <td>{money(cost[part])}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {cost.total > 0 && cost.unknown.length > 0 && (
        <p class="row-more">{w.record.cost.unknown([...new Set(cost.unknown)].join(', '))}</p>
      )}
    </RecordPart>
  )
}
