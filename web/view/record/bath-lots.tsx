import { bathDryG } from '#core/batch/shared-bath'
import { useWords } from '../page-context.ts'
import type { BatchWithEntries } from './record-lines.ts'
import { ScrollTable } from '../part/scroll-table.tsx'
import { LotForm } from './lot-form.tsx'

/** The lots that lie in one bath, each with its own goods and weight; and putting another one in. */
export function BathLots(props: { readonly batch: BatchWithEntries; readonly again: () => void }) {
  const { w } = useWords()
  const { batch } = props
  const isOver = batch.state === 'ended'
  if (batch.lots.length === 0 && isOver) return null
  return (
    <section class="panel" aria-label={w.record.lots.title}>
      {batch.lots.length > 0 && (
        <>
          <h2>{w.record.lots.title}</h2>
          <LotTable batch={batch} />
          <p class="row-more">{w.record.lots.help}</p>
        </>
      )}
      {!isOver && (
        <details>
          <summary>{w.record.lots.another}</summary>
          <LotForm batch={batch} onAdded={props.again} />
        </details>
      )}
    </section>
  )
}

function LotTable({ batch }: { readonly batch: BatchWithEntries }) {
  const { w, f } = useWords()
  const weight = (weightG: number | null) => (weightG === null ? '–' : f.weight(weightG))
  return (
    <ScrollTable label={w.record.lots.title}>
      <thead>
        <tr>
          <th scope="col">{w.record.lots.lot}</th>
          <th scope="col">{w.record.weigh.dryWeight}</th>
        </tr>
      </thead>
      <tbody>
        {batch.lots.map(({ id, title, dryWeightG }) => (
          <tr key={id}>
            <td>{id === batch.id ? <strong>{title}</strong> : <a href={`#/batches/${id}`}>{title}</a>}</td>
            <td>{weight(dryWeightG)}</td>
          </tr>
        ))}
        <tr>
          <td>
            <strong>{w.record.lots.whole}</strong>
          </td>
          <td>
            <strong>{weight(bathDryG(batch.lots))}</strong>
          </td>
        </tr>
      </tbody>
    </ScrollTable>
  )
}
