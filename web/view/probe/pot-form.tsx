import { BURNER_KINDS } from '#core/bath/vessel'
import type { PotRecord } from '#core/wire/records'
import { SelectField, TextField } from '../part/field.tsx'
import { useWords } from '../page-context.ts'
import { type PotDraft, type PotTexts, usePotDraft } from './use-pot-draft.ts'

/** A pot: its name, its water and what it stands on. Values that the form doesn't show are kept. */
export function PotForm(props: { readonly pot: PotRecord | null; readonly onDone: () => void }) {
  const { w } = useWords()
  const draft = usePotDraft(props.pot, props.onDone)
  const { refusal } = draft
  return (
    <form
      class="stage-form pot-form"
      noValidate
      onSubmit={(e) => {
        e.preventDefault()
        void draft.save()
      }}
    >
      <h3>{props.pot === null ? w.probe.addPot : w.probe.editPot(props.pot.title)}</h3>
      <PotFields draft={draft} />
      <div role="alert">{refusal !== null && <p class="problem">{w.shell.failed(refusal)}</p>}</div>
      <div class="buttons">
        <button type="submit" class="button main">
          {w.probe.save}
        </button>
        <button type="button" class="button quiet" onClick={props.onDone}>
          {w.shell.cancel}
        </button>
      </div>
    </form>
  )
}

function PotFields({ draft }: { readonly draft: PotDraft }) {
  const { w, f } = useWords()
  const field = (name: keyof PotTexts) => ({
    label: w.probe[name],
    value: draft.texts[name],
    error: draft.wrong[name],
    onValue: (value: string) => draft.change({ [name]: value }),
  })
  return (
    <div class="field-grid">
      <TextField {...field('potTitle')} />
      <TextField {...field('litres')} kind="number" unit={f.volumeUnit} />
      <SelectField
        label={w.probe.burner}
        value={draft.burner}
        options={[['', '–'], ...BURNER_KINDS.map((kind) => [kind, w.probe.burners[kind]] as const)]}
        onValue={draft.setBurner}
      />
      <TextField {...field('dialMax')} kind="number" />
      <TextField {...field('diameter')} kind="number" unit={w.probe.cm} help={w.plan.optional} />
      <TextField {...field('ratedW')} kind="number" unit={w.probe.watts} help={w.plan.optional} />
    </div>
  )
}
