import type { ComponentChildren } from 'preact'
import { isBackDated } from '#core/batch/is-back-dated'
import type { RecordLine } from '#core/batch/record-line'
import { useWords } from '../page-context.ts'

/** When a line was so, who wrote it, and a mark when it was written down later than it happened. */
function LineFoot({ line }: { readonly line: RecordLine }) {
  const { w, f } = useWords()
  const parts = [
    f.day(line.atMs),
    line.who === null ? null : w.record.by(line.who),
    isBackDated(line) ? w.record.later(f.day(line.notedMs)) : null,
  ]
  return <p class="row-more">{parts.filter((part) => part !== null).join(' · ')}</p>
}

/** The fields of a line in a row. */
export function LineFields({ parts }: { readonly parts: readonly (readonly [string, string])[] }) {
  return (
    <dl class="line-fields">
      {parts.map(([field, value]) => (
        <div key={field}>
          <dt>{field}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  )
}

/** A line that stands, with what can be done about it. */
export function LineRow(props: {
  readonly line: RecordLine
  readonly children: ComponentChildren
  readonly kindWord: string
  readonly onCorrect?: () => void
  readonly onTakeBack: () => void
}) {
  const { w } = useWords()
  return (
    <li class="line-row">
      <div class="line-main">
        {props.children}
        <LineFoot line={props.line} />
      </div>
      <div class="buttons">
        {props.onCorrect !== undefined && (
          <button
            type="button"
            class="button quiet"
            aria-label={w.record.correctOf(props.kindWord)}
            onClick={props.onCorrect}
          >
            {w.record.correct}
          </button>
        )}
        <button
          type="button"
          class="button quiet"
          aria-label={w.record.takeBackOf(props.kindWord)}
          onClick={props.onTakeBack}
        >
          {w.record.takeBack}
        </button>
      </div>
    </li>
  )
}
