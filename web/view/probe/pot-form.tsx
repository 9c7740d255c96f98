import { useState } from 'preact/hooks'
import { BURNER_KINDS, type BurnerKind } from '#core/bath/vessel'
import { readNumber } from '#core/measure/read-number'
import type { PotRecord } from '#core/wire/records'
import { SelectField, TextField } from '../part/field.tsx'
import { usePage, useWords } from '../page-context.ts'

/** A pot: its name, its water and what it stands on. Values that the form doesn't show are kept. */
export function PotForm(props: { readonly pot: PotRecord | null; readonly onDone: () => void }) {
  const { w } = useWords()
  const { requests } = usePage()
  const vessel = props.pot?.vessel ?? null
  const [texts, setTexts] = useState({
    potTitle: props.pot?.title ?? '',
    litres: text(vessel?.litres),
    dialMax: text(vessel?.burner.dialMax ?? 10),
    diameter: text(vessel?.diameterCm),
    ratedW: text(vessel?.burner.ratedW),
  })
  const [burner, setBurner] = useState<BurnerKind | ''>(vessel?.burner.kind ?? '')
  const [refusal, setRefusal] = useState<string | null>(null)
  const [tried, setTried] = useState(false)
  const litres = readNumber(texts.litres)
  const dialMax = readNumber(texts.dialMax)
  const wrong = {
    potTitle: texts.potTitle.trim() === '' ? w.plan.problems['needs-text'] : undefined,
    litres: litres === null || litres <= 0 ? w.plan.problems['must-be-positive'] : undefined,
    dialMax: dialMax === null || dialMax <= 0 ? w.plan.problems['must-be-positive'] : undefined,
  }

  async function save(): Promise<void> {
    setTried(true)
    if (wrong.potTitle || wrong.litres || wrong.dialMax) return
    const { diameterCm: _, ...kept } = vessel ?? {}
    const body = {
      title: texts.potTitle.trim(),
      vessel: {
        ...kept,
        litres,
        ...optional('diameterCm', texts.diameter),
        burner: { dialMax, ...(burner === '' ? {} : { kind: burner }), ...optional('ratedW', texts.ratedW) },
      },
    }
    const done =
      props.pot === null
        ? await requests.ask('POST', '/api/pots', body)
        : await requests.ask('PUT', `/api/pots/${encodeURIComponent(props.pot.id)}`, body)
    if (done.ok) props.onDone()
    else setRefusal(done.why)
  }

  const field = (name: keyof typeof texts, error?: string) => ({
    label: w.probe[name],
    value: texts[name],
    error: tried ? error : undefined,
    onValue: (value: string) => setTexts({ ...texts, [name]: value }),
  })
  return (
    <form
      class="stage-form pot-form"
      noValidate
      onSubmit={(e) => {
        e.preventDefault()
        void save()
      }}
    >
      <h3>{props.pot === null ? w.probe.addPot : w.probe.editPot(props.pot.title)}</h3>
      <div class="field-grid">
        <TextField {...field('potTitle', wrong.potTitle)} />
        <TextField {...field('litres', wrong.litres)} kind="number" unit={w.probe.litreUnit} />
        <SelectField
          label={w.probe.burner}
          value={burner}
          options={[['', '–'], ...BURNER_KINDS.map((kind) => [kind, w.probe.burners[kind]] as const)]}
          onValue={setBurner}
        />
        <TextField {...field('dialMax', wrong.dialMax)} kind="number" />
        <TextField {...field('diameter')} kind="number" unit={w.probe.cm} help={w.plan.optional} />
        <TextField {...field('ratedW')} kind="number" unit={w.probe.watts} help={w.plan.optional} />
      </div>
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

const text = (value: number | undefined): string => (value === undefined ? '' : String(value))

/** What is no number goes to the server as it was typed: its sentence says what is allowed. */
const optional = (name: string, typed: string): object =>
  typed.trim() === '' ? {} : { [name]: readNumber(typed) ?? typed }
