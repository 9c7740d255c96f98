import { currentRecord } from '#core/batch/current-record'
import { useWords } from '../page-context.ts'
import { type BatchWithEntries, recordLines, standingOf } from './record-lines.ts'
import { LineFields } from './record-line.tsx'
import { choiceWord, lineParts } from './record-words.ts'
import { ResultColour } from './result-colour.tsx'

/** What the batch's own page shows of the record: the result, its colour and the photos. */
export function RecordShort({ batch }: { readonly batch: BatchWithEntries }) {
  const { w, f } = useWords()
  const lines = recordLines(batch.entries)
  const photos = standingOf(lines, 'photo')
  const names = { batches: [], stages: batch.plan.stages }
  const record = currentRecord(lines)
  const result = lineParts('result', { ...record.result }, names, w, f)
  if (result.length === 0 && photos.length === 0 && record.fastness.length === 0) return null
  return (
    <section class="panel" aria-label={w.record.kinds.result}>
      <h2>{w.record.kinds.result}</h2>
      <LineFields parts={result} />
      <ResultColour batch={batch} lines={lines} />
      {record.fastness.map((test) => (
        <LineFields key={test.test} parts={lineParts('fastness', { ...test }, names, w, f)} />
      ))}
      {record.fastness.some((test) => test.where === 'home') && <p class="row-more">{w.record.homeTest}</p>}
      <ul class="photos">
        {photos.map(({ id, atMs, body }) => (
          <li key={id}>
            <a href={`/api/photos/${body.fileId}`} target="_blank" rel="noreferrer">
              <img
                class="photo"
                src={`/api/photos/${body.fileId}`}
                alt={w.record.photoAlt(choiceWord(body.of, w), f.day(atMs))}
                loading="lazy"
              />
            </a>
          </li>
        ))}
      </ul>
    </section>
  )
}
