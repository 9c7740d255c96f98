import { type Lab, deltaE00 } from '#core/batch/colour'
import { currentRecord } from '#core/batch/current-record'
import type { RecordLine } from '#core/batch/record-line'
import { useAnswer } from '../part/use-answer.ts'
import { useWords } from '../page-context.ts'
import { type BatchWithEntries, recordLines } from './record-lines.ts'
import { Swatch } from './swatch.tsx'

/** The colour of the result beside its reference's, and how far apart they are. */
export function ResultColour(props: {
  readonly batch: BatchWithEntries
  readonly lines: readonly RecordLine[]
}) {
  const { lab, referenceBatchId } = currentRecord(props.lines).result
  if (lab === undefined) return null
  return (
    <div class="swatches">
      <LabLine title={props.batch.title} lab={lab} />
      {referenceBatchId !== undefined && <Reference batchId={referenceBatchId} lab={lab} />}
    </div>
  )
}

function Reference({ batchId, lab }: { readonly batchId: number; readonly lab: Lab }) {
  const { w, f } = useWords()
  const { asked } = useAnswer<BatchWithEntries>(`/api/batches/${batchId}`)
  if (asked === null || !asked.ok) return null
  const known = currentRecord(recordLines(asked.value.entries)).result.lab
  if (known === undefined) return null
  return (
    <>
      <LabLine title={asked.value.title} lab={known} />
      <p>
        <strong>{w.record.deltaE(f.amount(deltaE00(known, lab)), asked.value.title)}</strong>{' '}
        <span class="row-more">{w.record.deltaEHelp}</span>
      </p>
    </>
  )
}

function LabLine({ title, lab }: { readonly title: string; readonly lab: Lab }) {
  const { w, f } = useWords()
  return (
    <figure class="swatch-line">
      <Swatch lab={lab} />
      <figcaption>
        {title}
        <br />
        <span class="row-more">
          {w.record.picker.found(f.amount(lab.lightness), f.amount(lab.a), f.amount(lab.b))}
        </span>
      </figcaption>
    </figure>
  )
}
