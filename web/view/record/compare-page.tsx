import { useState } from 'preact/hooks'
import type { Difference } from '#core/batch/rank-differences'
import { Show } from '../part/fetched.tsx'
import { SelectField } from '../part/field.tsx'
import { useAnswer } from '../part/use-answer.ts'
import { useWords } from '../page-context.ts'
import { type ComparedBatch, ComparePicture, LineSample } from './compare-picture.tsx'
import { DifferenceTable } from './difference-table.tsx'

interface Comparison {
  readonly batches: readonly ComparedBatch[]
  readonly differences: readonly Difference[]
}

/** Two to six batches over one another from goods-in, and what differed, without naming a cause. */
export function ComparePage({ ids }: { readonly ids: readonly number[] }) {
  const { w } = useWords()
  const found = useAnswer<Comparison>(`/api/compare?ids=${ids.join(',')}`)
  return (
    <div class="wide">
      <h1>{w.record.compare.title}</h1>
      <Show of={found}>{(comparison) => <Compared {...comparison} />}</Show>
    </div>
  )
}

/** Hours from goods-in: the bath, its evening, its night. */
const THROUGH_H = ['2', '4', '8', '16', ''] as const

function Compared({ batches, differences }: Comparison) {
  const { w } = useWords()
  const { compare } = w.record
  const [throughH, setThroughH] = useState<(typeof THROUGH_H)[number]>('4')
  return (
    <>
      <section class="panel">
        <ul class="line-key">
          {batches.map((batch, i) => (
            <li key={batch.id}>
              <LineSample no={i} />
              <a href={`#/batches/${batch.id}`}>{batch.title}</a>
            </li>
          ))}
        </ul>
        <ComparePicture batches={batches} throughMin={throughH === '' ? Infinity : Number(throughH) * 60} />
        <div class="one-line">
          <SelectField
            label={compare.through}
            value={throughH}
            options={THROUGH_H.map(
              (h) => [h, h === '' ? compare.throughAll : compare.throughHours(Number(h))] as const,
            )}
            onValue={setThroughH}
          />
        </div>
      </section>
      <section class="panel">
        {differences.length === 0 ? (
          <p>{compare.none}</p>
        ) : (
          <>
            <DifferenceTable
              caption={compare.what}
              differences={differences}
              heads={batches.map((batch) => batch.title)}
            />
            <p class="row-more">{compare.rankHelp}</p>
          </>
        )}
      </section>
    </>
  )
}
