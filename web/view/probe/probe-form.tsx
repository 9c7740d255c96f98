import { useState } from 'preact/hooks'
import {
  EMPTY_PROBE,
  type ProbeEntry,
  type ProbeTexts,
  probeEntry,
  textsOf,
} from '../../state/probe-draft.ts'
import { ADDABLE_KINDS, type AddableKind, fieldsOf } from '../../state/probe-fields.ts'
import { LongField, SelectField, TextField } from '../part/field.tsx'
import { usePage, useWords } from '../page-context.ts'
import { lineGuess } from './line-guess.ts'
import { ProbeField } from './probe-field.tsx'

/** Something that was found, or an entry that is there; `sample`: what was last heard. */
export type ProbeFormStart =
  | { readonly kind: AddableKind; readonly where: string; readonly sample?: string | null }
  | { readonly name: string; readonly entry: ProbeEntry; readonly hasPassword: boolean }

/** A probe's settings; what is wrong with them the server says in one sentence that names the field. */
export function ProbeForm(props: {
  readonly start: ProbeFormStart
  readonly onDone: (saved: boolean) => void
}) {
  const { w } = useWords()
  const { requests } = usePage()
  const { start } = props
  const before = 'entry' in start ? start.entry : undefined
  const name = 'entry' in start ? start.name : null
  const [kind, setKind] = useState(kindOf(start))
  const [texts, setTexts] = useState(textsAtStart(start))
  /** The entry as text; `null` while the form is used. A kind without a form has only this. */
  const [typed, setTyped] = useState(kind === null ? asText(before ?? {}) : null)
  const [refusal, setRefusal] = useState<string | null>(null)

  async function save(): Promise<void> {
    const entry = typed === null ? probeEntry(kind!, texts, before) : fromText(typed)
    if (entry === null) return setRefusal(w.probe.noJson)
    const done = await (name === null
      ? requests.ask('POST', '/api/probe-settings', entry)
      : requests.ask('PUT', `/api/probe-settings/${encodeURIComponent(name)}`, entry))
    if (done.ok) props.onDone(true)
    else setRefusal(done.why)
  }

  return (
    <form
      class={name === null ? 'stage-form' : 'form-part'}
      noValidate
      onSubmit={(e) => {
        e.preventDefault()
        void save()
      }}
    >
      {name === null && <h3>{w.probe.addProbe}</h3>}
      {typed === null ? (
        <Fields
          kind={kind!}
          texts={texts}
          isNew={name === null}
          hasPassword={'entry' in start && start.hasPassword}
          onKind={setKind}
          onTexts={setTexts}
        />
      ) : (
        <LongField label={w.probe.textLabel} value={typed} rows={12} onValue={setTyped} />
      )}
      <div role="alert">{refusal !== null && <p class="problem">{w.shell.failed(refusal)}</p>}</div>
      <div class="buttons">
        <button type="submit" class="button main">
          {w.probe.save}
        </button>
        {kind !== null && (
          <button
            type="button"
            class="button quiet"
            onClick={() => setTyped(typed === null ? asText(probeEntry(kind, texts, before)) : null)}
          >
            {typed === null ? w.probe.asText : w.probe.asForm}
          </button>
        )}
        <button type="button" class="button quiet" onClick={() => props.onDone(false)}>
          {w.shell.cancel}
        </button>
      </div>
    </form>
  )
}

function Fields(props: {
  readonly kind: AddableKind
  readonly texts: ProbeTexts
  readonly isNew: boolean
  readonly hasPassword: boolean
  readonly onKind: (kind: AddableKind) => void
  readonly onTexts: (texts: ProbeTexts) => void
}) {
  const { w } = useWords()
  const { kind, texts, hasPassword, onTexts } = props
  const { first, more } = fieldsOf(kind)
  const field = (name: (typeof first)[number]) => (
    <ProbeField key={name} name={name} texts={texts} onTexts={onTexts} hasPassword={hasPassword} />
  )
  return (
    <>
      <div class="field-grid">
        {props.isNew && (
          <TextField
            label={w.probe.fields.name}
            help={w.probe.probeNameHelp}
            value={texts.name}
            onValue={(name) => onTexts({ ...texts, name })}
          />
        )}
        <SelectField
          label={w.probe.probeKind}
          value={kind}
          options={ADDABLE_KINDS.map((k) => [k, w.probe.probeKinds[k]] as const)}
          onValue={props.onKind}
        />
        {first.map(field)}
        {field('lagS')}
      </div>
      {first.includes('path') && <p class="hint">{w.probe.portHelp}</p>}
      <details>
        <summary>{w.probe.moreFields}</summary>
        <div class="field-grid">{more.map(field)}</div>
      </details>
    </>
  )
}

/** `null`: a kind that has no form. */
function kindOf(start: ProbeFormStart): AddableKind | null {
  const kind = 'entry' in start ? start.entry['kind'] : start.kind
  return ADDABLE_KINDS.find((k) => k === kind) ?? null
}

function textsAtStart(start: ProbeFormStart): ProbeTexts {
  if ('entry' in start) return textsOf(start.entry)
  const texts = { ...EMPTY_PROBE, line: lineGuess(start.sample ?? null) }
  switch (start.kind) {
    case 'mqtt':
      return { ...texts, topic: start.where }
    case 'one-wire-files':
      return { ...texts, device: start.where }
    default:
      return { ...texts, path: start.where }
  }
}

const asText = (entry: ProbeEntry): string => JSON.stringify(entry, null, 2)

function fromText(text: string): ProbeEntry | null {
  try {
    return JSON.parse(text) as ProbeEntry
  } catch {
    return null
  }
}
