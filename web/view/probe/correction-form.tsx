import { useState } from 'preact/hooks'
import type { ProbeInfo } from '../../state/requests.ts'
import { typedNumber } from '../../state/typed-number.ts'
import { Choice } from '../part/choice.tsx'
import { Field, TextField } from '../part/field.tsx'
import { usePage, useWords } from '../page-context.ts'
import { useSaveCorrection } from './use-save-correction.ts'

/** A correction that was found elsewhere, typed in the person's unit. */
export function CorrectionForm(props: { readonly probe: ProbeInfo; readonly onDone: () => void }) {
  const { w, f } = useWords()
  const { unit } = usePage().state.settings.value
  const [kind, setKind] = useState<'offset' | 'two-point'>('offset')
  const [texts, setTexts] = useState({
    offset: '',
    lowRaw: '',
    lowTrue: '',
    highRaw: '',
    highTrue: '',
    note: '',
  })
  const [day, setDay] = useState('')
  const { save, refusal } = useSaveCorrection(props.probe.name, props.onDone)
  // What is no number goes to the server as it was typed: its sentence says what is allowed.
  const number = (name: Exclude<keyof typeof texts, 'note'>) =>
    typedNumber(texts[name], name === 'offset' ? 'rate' : 'C', unit, undefined) ?? texts[name]
  const field = (name: keyof typeof texts) => ({
    label: w.probe[name],
    value: texts[name],
    onValue: (value: string) => setTexts({ ...texts, [name]: value }),
  })
  const degrees = (name: keyof typeof texts) => <TextField {...field(name)} kind="number" unit={f.unit} />
  const what = () =>
    kind === 'offset'
      ? { kind, offsetC: number('offset') }
      : {
          kind,
          low: { rawC: number('lowRaw'), trueC: number('lowTrue') },
          high: { rawC: number('highRaw'), trueC: number('highTrue') },
        }
  return (
    <form
      class="form-part"
      noValidate
      onSubmit={(e) => {
        e.preventDefault()
        void save({
          ...what(),
          ...(day === '' ? {} : { fromMs: Date.parse(`${day}T00:00`) }),
          ...(texts.note.trim() === '' ? {} : { note: texts.note.trim() }),
        })
      }}
    >
      <p>{w.probe.correctHelp}</p>
      <Choice
        label={w.probe.correctKind}
        value={kind}
        options={[
          ['offset', w.probe.correctKinds.offset],
          ['two-point', w.probe.correctKinds['two-point']],
        ]}
        onValue={setKind}
      />
      <div class="field-grid">
        {kind === 'offset'
          ? degrees('offset')
          : (['lowRaw', 'lowTrue', 'highRaw', 'highTrue'] as const).map(degrees)}
        <Field label={w.probe.validFrom} help={w.probe.validFromHelp}>
          {(tied) => (
            <input {...tied} type="date" value={day} onInput={(e) => setDay(e.currentTarget.value)} />
          )}
        </Field>
        <TextField {...field('note')} help={w.plan.optional} maxLength={500} />
      </div>
      <div role="alert">{refusal !== null && <p class="problem">{w.shell.failed(refusal)}</p>}</div>
      <button type="submit" class="button main">
        {w.probe.save}
      </button>
    </form>
  )
}
