import type { BatchSummary } from '#core/wire/records'
import { Mark } from '../part/mark.tsx'
import { Show } from '../part/fetched.tsx'
import { useAnswer } from '../part/use-answer.ts'
import { useWords } from '../page-context.ts'

export function BatchList() {
  const { w } = useWords()
  const found = useAnswer<readonly BatchSummary[]>('/api/batches')
  return (
    <div class="wide">
      <div class="page-head">
        <h1>{w.batch.listTitle}</h1>
        <div class="buttons">
          <a class="button" href="#/morning">
            {w.tell.morning}
          </a>
          <a class="button main" href="#/start">
            {w.batch.start}
          </a>
        </div>
      </div>
      <Show of={found}>
        {(batches) =>
          batches.length === 0 ? (
            <div class="panel">
              <h2>{w.batch.none}</h2>
              <p>{w.batch.noneHelp}</p>
            </div>
          ) : (
            <ul class="row-list">
              {batches.map((batch) => (
                <BatchRow key={batch.id} batch={batch} />
              ))}
            </ul>
          )
        }
      </Show>
    </div>
  )
}

function BatchRow({ batch }: { readonly batch: BatchSummary }) {
  const { w, f } = useWords()
  return (
    <li>
      <div class="row-main">
        <a href={`#/batches/${batch.id}`}>{batch.title}</a>
        <p class="row-more">
          {[
            batch.planTitle,
            batch.fibre,
            batch.dryWeightG === null ? null : w.batch.weight(f.amount(batch.dryWeightG)),
            w.batch.made(f.date(batch.madeMs)),
          ]
            .filter((part) => part !== null)
            .join(' · ')}
        </p>
      </div>
      <BatchTag state={batch.state} />
    </li>
  )
}

export function BatchTag({ state }: { readonly state: BatchSummary['state'] }) {
  const { w } = useWords()
  const mark = state === 'running' ? 'in-window' : state === 'ended' ? 'done' : 'no-window'
  return (
    <span class={`tag tag-${state}`}>
      <Mark name={mark} />
      {w.batch.states[state]}
    </span>
  )
}
