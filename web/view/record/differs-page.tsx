import type { TodayAdvice } from '#core/batch/differs-today'
import { Show } from '../part/fetched.tsx'
import { useAnswer } from '../part/use-answer.ts'
import { useWords } from '../page-context.ts'
import { BatchHead } from './batch-head.tsx'
import { DifferenceTable } from './difference-table.tsx'
import { type BatchWithEntries, recordLines, standingOf } from './record-lines.ts'
import { lineParts } from './record-words.ts'

/** What the old record has and today's lacks: it may differ, and nobody would know. */
function NotYet(props: { readonly then: BatchWithEntries; readonly today: BatchWithEntries }) {
  const { w, f } = useWords()
  const [then, today] = [recordLines(props.then.entries), recordLines(props.today.entries)]
  const names = { batches: [], stages: props.then.plan.stages }
  const missing = KINDS.filter(
    (kind) => standingOf(then, kind).length > 0 && standingOf(today, kind).length === 0,
  )
  const weighed = [
    ...new Set(standingOf(then, 'weighing').map(({ body }) => `${body.additive} ${body.lot ?? ''}`.trim())),
  ]
  const isUnweighed = weighed.length > 0 && standingOf(today, 'weighing').length === 0
  if (missing.length === 0 && !isUnweighed) return null
  return (
    <section class="panel">
      <p>{w.record.differs.notYet}</p>
      <ul class="cautions">
        {missing.map((kind) => (
          <li key={kind}>
            {w.record.pair(
              w.record.kinds[kind],
              standingOf(then, kind)
                .flatMap((line) => lineParts(kind, { ...line.body }, names, w, f))
                .map(([field, value]) => w.record.pair(field, value))
                .join(', '),
            )}
          </li>
        ))}
        {isUnweighed && <li>{w.record.pair(w.record.kinds.weighing, weighed.join(', '))}</li>}
      </ul>
    </section>
  )
}

const KINDS = ['water', 'preparation', 'dye-bath', 'equipment'] as const

/** Said before the heat is on: what is not as it was when the shade came out well. */
export function DiffersPage(props: { readonly batchId: number; readonly fromId: number }) {
  const { w, f } = useWords()
  const { differs } = w.record
  const today = useAnswer<BatchWithEntries>(`/api/batches/${props.batchId}`)
  const then = useAnswer<BatchWithEntries>(`/api/batches/${props.fromId}`)
  const found = useAnswer<TodayAdvice>(`/api/batches/${props.batchId}/differs?from=${props.fromId}`)
  return (
    <Show of={today}>
      {(batch) => (
        <div class="wide">
          <BatchHead batch={batch} title={differs.title} here="differs" />
          <Show of={then}>
            {(old) => (
              <p>
                {differs.intro(batch.title)} <a href={`#/batches/${old.id}`}>{old.title}</a>
              </p>
            )}
          </Show>
          <Show of={found}>
            {({ differences, testPieceFirst, trueMeanC }) => (
              <section class="panel">
                {testPieceFirst && <p class="warning">{differs.testPiece}</p>}
                {trueMeanC !== null && <p class="warning">{differs.trueMean(f.temp(trueMeanC))}</p>}
                {differences.length === 0 ? (
                  <p>{differs.none}</p>
                ) : (
                  <DifferenceTable
                    caption={differs.title}
                    differences={differences}
                    heads={[differs.before, differs.today]}
                  />
                )}
              </section>
            )}
          </Show>
          <Show of={then}>{(old) => <NotYet then={old} today={batch} />}</Show>
          <p>
            <a href={`#/record/${batch.id}`}>{differs.writeDown}</a>
          </p>
        </div>
      )}
    </Show>
  )
}
