import type { BatchRecord } from '#core/wire/records'
import { BatchTag } from '../batch/batch-tag.tsx'
import { useWords } from '../page-context.ts'

/** The head of every page of a batch, with the ways between them. */
export function BatchHead(props: {
  readonly batch: BatchRecord
  readonly title: string
  readonly here: 'weigh' | 'record' | 'repeat' | 'differs'
}) {
  const { w } = useWords()
  const { batch, here } = props
  return (
    <header class="page-head">
      <h1>{props.title}</h1>
      <div class="buttons">
        <BatchTag state={batch.state} />
        <a class="button" href={`#/batches/${batch.id}`}>
          {w.record.back}
        </a>
        {here !== 'weigh' && (
          <a class="button" href={`#/weigh/${batch.id}`}>
            {w.record.weigh.open}
          </a>
        )}
        {here !== 'record' && (
          <a class="button" href={`#/record/${batch.id}`}>
            {w.record.open}
          </a>
        )}
        {batch.state === 'planned' && (
          <a class="button main" href={`#/begin/${batch.id}`}>
            {w.batch.begin}
          </a>
        )}
      </div>
    </header>
  )
}
