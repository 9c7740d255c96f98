import type { ComponentChildren } from 'preact'
import { useState } from 'preact/hooks'
import type { RecordLine } from '#core/batch/record-line'
import type { FormKind } from '../../state/record-fields.ts'
import { useWords } from '../page-context.ts'
import { RecordForm } from './record-form.tsx'
import { LineFields, LineRow } from './record-line.tsx'
import { type RecordNames, lineParts } from './record-words.ts'
import { useAddLine } from './use-add-line.ts'

interface Props {
  readonly batchId: number
  readonly kind: FormKind
  /** Lines of this kind that stand. */
  readonly lines: readonly RecordLine[]
  readonly names: RecordNames
  readonly onChange: () => void
  readonly children?: ComponentChildren
}

/** Everything of one kind in a record: what stands, and adding, correcting and taking back. */
export function RecordPart(props: Props) {
  const { w, f } = useWords()
  const add = useAddLine(props.batchId)
  const [open, setOpen] = useState<'new' | number | null>(null)
  const { kind, lines, names } = props
  const kindWord = w.record.kinds[kind]

  async function put(line: Parameters<typeof add>[0]): Promise<boolean> {
    const added = await add(line)
    if (added) props.onChange()
    return added
  }
  const form = (before: RecordLine | null) => (
    <RecordForm
      kind={kind}
      names={names}
      before={before === null ? {} : { ...before.body }}
      isNew={before === null}
      onSave={(body, atMs) =>
        put({
          kind,
          body,
          ...(before !== null
            ? { replaces: before.id, atMs: before.atMs }
            : atMs === undefined
              ? {}
              : { atMs }),
        })
      }
      onDone={() => setOpen(null)}
    />
  )
  return (
    <section class="panel" aria-label={kindWord}>
      <div class="part-head">
        <h2>{kindWord}</h2>
        {open === null && (
          <button
            type="button"
            class="button"
            aria-label={w.record.addOf(kindWord)}
            onClick={() => setOpen('new')}
          >
            {w.record.add}
          </button>
        )}
      </div>
      {w.record.help[kind] !== '' && <p class="row-more">{w.record.help[kind]}</p>}
      <ul class="lines">
        {lines.map((line) =>
          open === line.id ? (
            <li key={line.id}>{form(line)}</li>
          ) : (
            <LineRow
              key={line.id}
              line={line}
              kindWord={kindWord}
              onCorrect={() => setOpen(line.id)}
              onTakeBack={() => void put({ kind: 'withdrawn', body: {}, replaces: line.id })}
            >
              <LineFields parts={lineParts(kind, { ...line.body }, names, w, f)} />
            </LineRow>
          ),
        )}
      </ul>
      {open === 'new' && form(null)}
      {props.children}
    </section>
  )
}
