import { ADDABLE_KINDS, type AddableKind, fieldsOf } from '../../state/probe-fields.ts'
import type { ProbeTexts } from '../../state/probe-draft.ts'
import { LongField, SelectField, TextField } from '../part/field.tsx'
import { useWords } from '../page-context.ts'
import { ProbeField } from './probe-field.tsx'
import { type ProbeDraft, type ProbeFormStart, useProbeDraft } from './use-probe-draft.ts'

/** A probe's settings; what is wrong with them the server says in one sentence that names the field. */
export function ProbeForm(props: {
  readonly start: ProbeFormStart
  readonly onDone: (saved: boolean) => void
}) {
  const { w } = useWords()
  const { start, onDone } = props
  const draft = useProbeDraft(start, () => onDone(true))
  const isNew = !('name' in start)
  const { kind, typed, refusal } = draft
  return (
    <form
      class={isNew ? 'stage-form' : 'form-part'}
      noValidate
      onSubmit={(e) => {
        e.preventDefault()
        void draft.save()
      }}
    >
      {isNew && <h3>{w.probe.addProbe}</h3>}
      {typed === null ? (
        <Fields
          kind={kind!}
          texts={draft.texts}
          isNew={isNew}
          hasPassword={'entry' in start && start.hasPassword}
          onKind={draft.setKind}
          onTexts={draft.setTexts}
        />
      ) : (
        <LongField label={w.probe.textLabel} value={typed} rows={12} onValue={draft.setTyped} />
      )}
      <div role="alert">{refusal !== null && <p class="problem">{w.shell.failed(refusal)}</p>}</div>
      <Buttons draft={draft} onCancel={() => onDone(false)} />
    </form>
  )
}

function Buttons({ draft, onCancel }: { readonly draft: ProbeDraft; readonly onCancel: () => void }) {
  const { w } = useWords()
  return (
    <div class="buttons">
      <button type="submit" class="button main">
        {w.probe.save}
      </button>
      {draft.kind !== null && (
        <button type="button" class="button quiet" onClick={draft.toggleText}>
          {draft.typed === null ? w.probe.asText : w.probe.asForm}
        </button>
      )}
      <button type="button" class="button quiet" onClick={onCancel}>
        {w.shell.cancel}
      </button>
    </div>
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
