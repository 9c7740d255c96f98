import type { BatchSummary } from '#core/wire/records'
import type { FormKind } from '../../state/record-fields.ts'
import { Show } from '../part/fetched.tsx'
import { useAnswer } from '../part/use-answer.ts'
import { useWords } from '../page-context.ts'
import { BatchHead } from './batch-head.tsx'
import { Corrections } from './corrections.tsx'
import { PhotosPart } from './photos-part.tsx'
import { type BatchWithEntries, recordLines, standingOf } from './record-lines.ts'
import { RecordPart } from './record-part.tsx'
import { ResultColour } from './result-colour.tsx'

/** In the order of the days: what went in, what was measured, how it came out. */
const BEFORE: readonly FormKind[] = ['goods', 'water', 'preparation', 'dye-bath', 'equipment', 'ph', 'check']
const AFTER: readonly FormKind[] = ['fastness', 'note']

/** Writing the record of a batch: adding, correcting, taking back; nothing is ever overwritten. */
export function RecordPage({ batchId }: { readonly batchId: number }) {
  const batch = useAnswer<BatchWithEntries>(`/api/batches/${batchId}`)
  const others = useAnswer<readonly BatchSummary[]>('/api/batches?limit=200')
  return (
    <Show of={batch}>
      {(found) => (
        <Show of={others}>
          {(all) => (
            <RecordParts batch={found} batches={all.filter((b) => b.id !== batchId)} again={batch.again} />
          )}
        </Show>
      )}
    </Show>
  )
}

function RecordParts(props: {
  readonly batch: BatchWithEntries
  readonly batches: readonly BatchSummary[]
  readonly again: () => void
}) {
  const { w } = useWords()
  const { batch, again } = props
  const lines = recordLines(batch.entries)
  const names = { batches: props.batches, stages: batch.plan.stages }
  const part = (kind: FormKind) => (
    <RecordPart
      key={kind}
      batchId={batch.id}
      kind={kind}
      lines={standingOf(lines, kind)}
      names={names}
      onChange={again}
    />
  )
  return (
    <div class="wide">
      <BatchHead batch={batch} title={w.record.title(batch.title)} here="record" />
      <div class="parts">
        {BEFORE.map(part)}
        <PhotosPart batch={batch} lines={lines} onChange={again} />
        <RecordPart
          batchId={batch.id}
          kind="result"
          lines={standingOf(lines, 'result')}
          names={names}
          onChange={again}
        >
          <ResultColour batch={batch} lines={lines} />
        </RecordPart>
        {AFTER.map(part)}
        <Corrections entries={batch.entries} lines={lines} names={names} />
      </div>
    </div>
  )
}
