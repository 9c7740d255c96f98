import { useState } from 'preact/hooks'
import {
  ADDABLE_KINDS,
  type AddableKind,
  EMPTY_PROBE,
  type ProbeField,
  fieldsOf,
  probeSetting,
} from '../../state/probe-draft.ts'
import { SelectField, TextField } from '../part/field.tsx'
import { usePage, useWords } from '../page-context.ts'
import { lineGuess } from './line-guess.ts'

export interface ProbeFormStart {
  readonly kind: AddableKind
  /** Port, topic or device. */
  readonly where: string
  /** What was last heard there. */
  readonly sample?: string | null
}

/** A probe's settings; what is wrong with them the server says in one sentence that names the field. */
export function ProbeForm(props: {
  readonly start: ProbeFormStart
  readonly onDone: (saved: boolean) => void
}) {
  const { w } = useWords()
  const { requests } = usePage()
  const { start } = props
  const [kind, setKind] = useState(start.kind)
  const [texts, setTexts] = useState({
    ...EMPTY_PROBE,
    line: lineGuess(start.sample ?? null),
    ...(start.kind === 'mqtt'
      ? { topic: start.where }
      : start.kind === 'one-wire-files'
        ? { device: start.where }
        : { path: start.where }),
  })
  const [refusal, setRefusal] = useState<string | null>(null)
  const field = (name: ProbeField) => ({
    label: w.probe.fields[name],
    value: texts[name],
    onValue: (value: string) => setTexts({ ...texts, [name]: value }),
  })

  async function save(): Promise<void> {
    const done = await requests.ask('POST', '/api/probe-settings', probeSetting(kind, texts))
    if (done.ok) props.onDone(true)
    else setRefusal(done.why)
  }

  const help: { readonly [name in ProbeField]?: string } = w.probe.fieldHelp
  return (
    <form
      class="stage-form"
      noValidate
      onSubmit={(e) => {
        e.preventDefault()
        void save()
      }}
    >
      <h3>{w.probe.addProbe}</h3>
      <div class="field-grid">
        <TextField {...field('name')} help={w.probe.probeNameHelp} />
        <SelectField
          label={w.probe.probeKind}
          value={kind}
          options={ADDABLE_KINDS.map((k) => [k, w.probe.probeKinds[k]] as const)}
          onValue={setKind}
        />
        {fieldsOf(kind).map((name) => (
          <TextField
            key={name}
            {...field(name)}
            help={help[name]}
            kind={NUMBERS.has(name) ? 'number' : 'text'}
            maxLength={512}
          />
        ))}
        <TextField {...field('lagS')} kind="number" unit={w.probe.seconds} help={w.plan.optional} />
      </div>
      {fieldsOf(kind).includes('path') && <p class="hint">{w.probe.portHelp}</p>}
      <div role="alert">{refusal !== null && <p class="problem">{w.shell.failed(refusal)}</p>}</div>
      <div class="buttons">
        <button type="submit" class="button main">
          {w.probe.save}
        </button>
        <button type="button" class="button quiet" onClick={() => props.onDone(false)}>
          {w.shell.cancel}
        </button>
      </div>
    </form>
  )
}

const NUMBERS: ReadonlySet<ProbeField> = new Set(['baud', 'station', 'address', 'scale'])
