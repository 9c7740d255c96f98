import type { ProbeTexts } from '../../state/probe-draft.ts'
import { placeOf, type ProbeField as FieldName } from '../../state/probe-fields.ts'
import { Field, SelectField, TextField } from '../part/field.tsx'
import { useWords } from '../page-context.ts'

type Some<T> = { readonly [name in FieldName]?: T }

/** One field of a probe's settings, typed or chosen as it wants. */
export function ProbeField(props: {
  readonly name: FieldName
  readonly texts: ProbeTexts
  readonly onTexts: (texts: ProbeTexts) => void
  /** A password is kept that was not sent to the page. */
  readonly hasPassword: boolean
}) {
  const { w } = useWords()
  const { name, texts } = props
  const { shape } = placeOf(name)
  const help: Some<string> = w.probe.fieldHelp
  const units: Some<string> = w.probe.fieldUnits
  const choices: Some<Readonly<Record<string, string>>> = w.probe.fieldChoices
  const common = {
    label: w.probe.fields[name],
    help: help[name],
    unit: units[name],
    value: texts[name],
    onValue: (value: string) => props.onTexts({ ...texts, [name]: value }),
  }
  if (typeof shape !== 'string') {
    const words = choices[name] ?? {}
    return <SelectField {...common} options={shape.map((value) => [value, words[value] ?? value] as const)} />
  }
  if (shape === 'secret') {
    return (
      <Field label={common.label} help={props.hasPassword ? w.probe.passwordKept : help.user}>
        {(tied) => (
          <input
            {...tied}
            type="password"
            autocomplete="new-password"
            maxLength={256}
            value={common.value}
            onInput={(e) => common.onValue(e.currentTarget.value)}
          />
        )}
      </Field>
    )
  }
  return <TextField {...common} kind={shape === 'number' ? 'number' : 'text'} maxLength={512} />
}
