import { correctionsOf } from '#core/batch/corrections'
import { ownCorrections } from '#core/batch/own-corrections'
import type { RecordLine } from '#core/batch/record-line'
import { useWords } from '../page-context.ts'
import { type RecordNames, correctedText, fieldWord } from './record-words.ts'
import type { EntryRecord } from '#core/wire/records'

/** What was corrected: who, when, from what to what. */
export function Corrections(props: {
  readonly entries: readonly EntryRecord[]
  readonly lines: readonly RecordLine[]
  readonly names: RecordNames
}) {
  const { w, f } = useWords()
  const all = [...correctionsOf(props.lines), ...props.entries.flatMap(ownCorrections)].sort(
    (a, b) => a.notedMs - b.notedMs,
  )
  return (
    <section class="panel" aria-label={w.record.corrections}>
      <h2>{w.record.corrections}</h2>
      <p class="row-more">{w.record.correctionsHelp}</p>
      {all.length === 0 && <p>{w.record.noCorrections}</p>}
      <ul class="log">
        {all.map((c, i) => (
          <li key={`${c.lineId} ${c.field} ${i}`}>
            {w.record.correction(
              w.record.kinds[c.kind],
              fieldWord(c.field, w),
              correctedText(c.field, c.from, props.names, w, f),
              c.to === null ? w.record.takenBack : correctedText(c.field, c.to, props.names, w, f),
            )}{' '}
            <span class="row-more">
              {[f.day(c.notedMs), c.who === null ? null : w.record.by(c.who)]
                .filter((part) => part !== null)
                .join(' · ')}
            </span>
          </li>
        ))}
      </ul>
    </section>
  )
}
