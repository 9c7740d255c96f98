import type { BatchRecord } from '#core/wire/records'
import { usePage, useWords } from '../page-context.ts'
import { ImportTrace } from './import-trace.tsx'
import { reportHref } from './report-href.ts'

const SHEETS = [
  ['sheet', 'sheet'],
  ['tag', 'tag'],
  ['lot-record', 'lotRecord'],
  ['class-page', 'classPage'],
] as const

/** Everything that leaves the studio with or for a batch. */
export function OutPart({ batch }: { readonly batch: BatchRecord }) {
  const { w } = useWords()
  const { state } = usePage()
  const { out } = w.record
  return (
    <section class="panel out" aria-label={out.title}>
      <h2>{out.title}</h2>
      <p class="row-more">{out.help}</p>
      <ul class="out-list">
        {SHEETS.map(([report, word]) => (
          <li key={report}>
            <a class="button" href={reportHref(batch.id, report, state)} target="_blank" rel="noreferrer">
              {out[word]}
            </a>{' '}
            <a
              class="button quiet"
              href={reportHref(batch.id, report, state, { format: 'pdf' })}
              aria-label={out.pdfOf(out[word])}
              download
            >
              {out.pdf}
            </a>
          </li>
        ))}
        <li>
          <a class="button" href={`/api/batches/${batch.id}/trace.csv`} download>
            {out.trace}
          </a>
        </li>
        <li>
          <a class="button" href={`/api/batches/${batch.id}/batch.json`} download={`batch-${batch.id}.json`}>
            {out.json}
          </a>
        </li>
      </ul>
      <p class="row-more">{out.archive}</p>
      {batch.state === 'planned' && <ImportTrace batchId={batch.id} />}
    </section>
  )
}
