import { useState } from 'preact/hooks'
import { type LineDraft, bodyFromDraft, draftOfBody } from '../../state/record-draft.ts'
import { isMeasuredTest } from '../../state/measured-grade.ts'
import { type FormKind, RECORD_FIELDS, type RecordField } from '../../state/record-fields.ts'
import { Field, LongField, SelectField, TextField } from '../part/field.tsx'
import { usePage, useWords } from '../page-context.ts'
import type { Catalogue } from '../words/catalogue.ts'
import type { Format } from '../words/format.ts'
import { MeasuredGrade } from './measured-grade.tsx'
import { type RecordNames, choiceWord } from './record-words.ts'

/** Writes one line of the record, or another one in the place of one that stands. */
export function RecordForm(props: {
  readonly kind: FormKind
  readonly names: RecordNames
  /** What stands now, when it is corrected; or what is known before anything is typed. */
  readonly before: Readonly<Record<string, unknown>>
  /** A new line may say that it was so earlier; a correction is of the same moment. */
  readonly isNew: boolean
  readonly onSave: (body: object, atMs: number | undefined) => Promise<boolean>
  readonly onDone: () => void
}) {
  const { w } = useWords()
  const { unit, weights } = usePage().state.settings.value
  const [draft, setDraft] = useState<LineDraft>(() =>
    draftOfBody(props.kind, props.before, { unit, weights }),
  )
  const [tried, setTried] = useState(false)
  const [when, setWhen] = useState('')
  const read = bodyFromDraft(props.kind, draft, { unit, weights }, props.before)

  async function save(): Promise<void> {
    setTried(true)
    if (read.ok && (await props.onSave(read.body, momentOf(when)))) props.onDone()
  }
  return (
    <form
      class="form record-form"
      noValidate
      onSubmit={(e) => {
        e.preventDefault()
        void save()
      }}
    >
      <div class="field-grid">
        {RECORD_FIELDS[props.kind].map((field) => {
          const problem = tried && !read.ok ? read.problems[field.name] : undefined
          return (
            <LineField
              key={field.name}
              field={field}
              names={props.names}
              value={draft[field.name] ?? ''}
              error={problem && w.record.problems[problem]}
              onValue={(value) => setDraft({ ...draft, [field.name]: value })}
            />
          )
        })}
        {props.isNew && (
          <Field label={w.record.whenEarlier} help={w.record.whenHelp}>
            {(tied) => (
              <input
                {...tied}
                type="datetime-local"
                value={when}
                onInput={(e) => setWhen(e.currentTarget.value)}
              />
            )}
          </Field>
        )}
      </div>
      {props.kind === 'fastness' && isMeasuredTest(draft['test']) && (
        <MeasuredGrade
          key={draft['test']}
          test={draft['test']}
          onGrade={(grade) => setDraft({ ...draft, grade })}
        />
      )}
      <div class="buttons">
        <button type="submit" class="button main">
          {w.record.save}
        </button>
        <button type="button" class="button quiet" onClick={props.onDone}>
          {w.shell.cancel}
        </button>
      </div>
    </form>
  )
}

/** What a person typed as day and time, in the zone of this device; nothing typed: now. */
function momentOf(typed: string): number | undefined {
  const atMs = new Date(typed).getTime()
  return Number.isNaN(atMs) ? undefined : atMs
}

interface LineFieldProps {
  readonly field: RecordField
  readonly names: RecordNames
  readonly value: string
  readonly error: string | undefined
  readonly onValue: (value: string) => void
}

function LineField(props: LineFieldProps) {
  const { w, f } = useWords()
  const { field, value, error, onValue } = props
  const label = w.record.fields[field.name]
  const options = optionsOf(field, props.names, w)
  if (options !== null)
    return (
      <SelectField
        label={label}
        value={value}
        error={error}
        options={[['', w.record.any], ...options]}
        onValue={onValue}
      />
    )
  if (field.sort === 'date')
    return (
      <Field label={label} error={error}>
        {(tied) => (
          <input {...tied} type="date" value={value} onInput={(e) => onValue(e.currentTarget.value)} />
        )}
      </Field>
    )
  if (field.sort === 'text') return <LongField label={label} error={error} value={value} onValue={onValue} />
  const isWord = field.sort === 'word'
  const unit = unitOf(field, f)
  return (
    <TextField
      label={label}
      kind={isWord ? 'text' : 'number'}
      {...(unit === undefined ? {} : { unit })}
      value={value}
      error={error}
      onValue={onValue}
    />
  )
}

function optionsOf(
  field: RecordField,
  names: RecordNames,
  w: Catalogue,
): readonly (readonly [string, string])[] | null {
  if (field.sort === 'stage') return names.stages.map((stage) => [stage.id, stage.title] as const)
  if (field.sort === 'batch')
    return names.batches.map(({ id, title }) => [String(id), w.record.batchNo(id, title)] as const)
  return field.choices?.map((choice) => [choice, choiceWord(choice, w)] as const) ?? null
}

function unitOf({ sort }: RecordField, f: Format): string | undefined {
  if (sort === 'weight') return f.weightUnit
  if (sort === 'volume') return f.volumeUnit
  return sort === 'temp' ? f.unit : undefined
}
