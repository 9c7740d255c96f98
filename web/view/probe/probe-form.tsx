import { useState } from 'preact/hooks'
import { readNumber } from '#core/measure/read-number'
import { SelectField, TextField } from '../part/field.tsx'
import { usePage, useWords } from '../page-context.ts'
import { lineGuess } from './line-guess.ts'

export interface ProbeFormStart {
  readonly kind: 'serial-lines' | 'mqtt'
  /** Port or topic. */
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
    name: '',
    path: start.kind === 'serial-lines' ? start.where : '',
    baud: '9600',
    line: lineGuess(start.sample ?? null),
    url: 'mqtt://127.0.0.1:1883',
    topic: start.kind === 'mqtt' ? start.where : '',
    lagS: '',
  })
  const [refusal, setRefusal] = useState<string | null>(null)
  const field = (name: keyof typeof texts) => ({
    label: w.probe.fields[name],
    value: texts[name],
    onValue: (value: string) => setTexts({ ...texts, [name]: value }),
  })

  async function save(): Promise<void> {
    const lag = texts.lagS.trim() === '' ? {} : { lagS: readNumber(texts.lagS) ?? texts.lagS }
    const body =
      kind === 'mqtt'
        ? { name: texts.name.trim(), kind, url: texts.url.trim(), topic: texts.topic.trim(), ...lag }
        : {
            name: texts.name.trim(),
            kind,
            path: texts.path.trim(),
            baud: readNumber(texts.baud) ?? texts.baud,
            line: texts.line,
            ...lag,
          }
    const done = await requests.ask('POST', '/api/probe-settings', body)
    if (done.ok) props.onDone(true)
    else setRefusal(done.why)
  }

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
          options={[
            ['serial-lines', w.probe.probeKinds['serial-lines']],
            ['mqtt', w.probe.probeKinds.mqtt],
          ]}
          onValue={setKind}
        />
        {kind === 'mqtt' ? (
          <>
            <TextField {...field('url')} />
            <TextField {...field('topic')} maxLength={512} />
          </>
        ) : (
          <>
            <TextField {...field('path')} />
            <TextField {...field('baud')} kind="number" />
            <TextField {...field('line')} help={w.probe.lineHelp} maxLength={256} />
          </>
        )}
        <TextField {...field('lagS')} kind="number" unit={w.probe.seconds} help={w.plan.optional} />
      </div>
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
