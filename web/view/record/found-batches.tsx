import { useState } from 'preact/hooks'
import type { BatchSummary } from '#core/wire/records'
import { BatchTag } from '../batch/batch-tag.tsx'
import { useWords } from '../page-context.ts'

/** More than these are not laid over one another. */
const MOST = 6

/** Batches in rows; two to six of them may be ticked and compared. */
export function FoundBatches(props: {
  readonly batches: readonly BatchSummary[]
  readonly isAll: boolean
  readonly more: boolean
}) {
  const { w } = useWords()
  const { batches } = props
  const [picked, setPicked] = useState<readonly number[]>([])
  const { find } = w.record
  if (batches.length === 0 && props.isAll)
    return (
      <div class="panel">
        <h2>{w.batch.none}</h2>
        <p>{w.batch.noneHelp}</p>
      </div>
    )
  if (batches.length === 0) return <p role="status">{find.none}</p>
  const pick = (id: number, on: boolean) =>
    setPicked(on ? [...picked, id].slice(0, MOST) : picked.filter((one) => one !== id))
  return (
    <>
      <div class="found-head">
        <p role="status">{find.found(batches.length, props.more)}</p>
        {picked.length < 2 ? (
          <p class="row-more">{find.compareHelp}</p>
        ) : (
          <a class="button main" href={`#/compare/${picked.join(',')}`}>
            {find.compare(picked.length)}
          </a>
        )}
      </div>
      <ul class="row-list">
        {batches.map((batch) => (
          <BatchRow
            key={batch.id}
            batch={batch}
            isPicked={picked.includes(batch.id)}
            isFull={picked.length >= MOST}
            onPick={(on) => pick(batch.id, on)}
          />
        ))}
      </ul>
    </>
  )
}

function BatchRow(props: {
  readonly batch: BatchSummary
  readonly isPicked: boolean
  readonly isFull: boolean
  readonly onPick: (on: boolean) => void
}) {
  const { w, f } = useWords()
  const { batch } = props
  return (
    <li>
      <label class="pick">
        <input
          type="checkbox"
          aria-label={w.record.find.pick(batch.title)}
          checked={props.isPicked}
          disabled={props.isFull && !props.isPicked}
          onChange={(e) => props.onPick(e.currentTarget.checked)}
        />
      </label>
      <div class="row-main">
        <a href={`#/batches/${batch.id}`}>{batch.title}</a>
        <p class="row-more">
          {[
            batch.planTitle,
            batch.fibre,
            batch.dryWeightG === null ? null : w.batch.weight(f.weight(batch.dryWeightG)),
            w.batch.made(f.date(batch.madeMs)),
            batch.bathOf === null ? null : w.record.lots.inBathOf(batch.bathOf),
          ]
            .filter((part) => part !== null)
            .join(' · ')}
        </p>
      </div>
      <BatchTag state={batch.state} />
    </li>
  )
}
