import { useState } from 'preact/hooks'
import { celsius, fahrenheit } from '#core/measure/units'
import { Show } from '../part/fetched.tsx'
import { Field, TextField } from '../part/field.tsx'
import { useAnswer } from '../part/use-answer.ts'
import { usePage, useWords } from '../page-context.ts'

interface WakeAnswer {
  readonly wakeAt: string | null
  readonly liftC: number
}

/** At bedtime: when the alarm clock rings, and how cool a bath must be by then. */
export function WakeForm() {
  const found = useAnswer<WakeAnswer>('/api/wake')
  return (
    <Show of={found}>
      {(known) => <WakeFields key={JSON.stringify(known)} known={known} onSaved={found.again} />}
    </Show>
  )
}

function WakeFields({ known, onSaved }: { readonly known: WakeAnswer; readonly onSaved: () => void }) {
  const { w, f } = useWords()
  const { state, requests } = usePage()
  const isF = f.person.unit === 'F'
  const shown = isF ? fahrenheit(known.liftC) : known.liftC
  const [wakeAt, setWakeAt] = useState(known.wakeAt ?? '')
  const [lift, setLift] = useState(String(Math.round(shown * 10) / 10))
  const typed = Number(lift.replace(',', '.'))
  const liftC = isF ? celsius(typed) : typed
  const isSame = wakeAt === (known.wakeAt ?? '') && Math.abs(liftC - known.liftC) < 0.05
  const save = async (): Promise<void> => {
    const body = { wakeAt: wakeAt === '' ? null : wakeAt, liftC }
    const done = await requests.ask('PUT', '/api/wake', body)
    if (done.ok) onSaved()
    else state.refusal.value = done.why
  }
  return (
    <form
      class="wake-form"
      onSubmit={(e) => {
        e.preventDefault()
        void save()
      }}
    >
      <Field label={w.tell.wakeAt}>
        {(tied) => (
          <input {...tied} type="time" value={wakeAt} onInput={(e) => setWakeAt(e.currentTarget.value)} />
        )}
      </Field>
      <TextField kind="number" label={w.tell.liftAt} unit={f.unit} value={lift} onValue={setLift} />
      <button type="submit" class="button" disabled={isSame || !Number.isFinite(typed)}>
        {w.tell.wakeSave}
      </button>
      {isSame && <p class="row-more">{known.wakeAt === null ? w.tell.wakeHelp : w.tell.wakeSaved}</p>}
    </form>
  )
}
