import { useState } from 'preact/hooks'
import type { PotLive } from '#core/wire/live'
import { useWords } from '../page-context.ts'

/** Every mark of the dial as one large button; half marks by typing. */
export function DialButtons(props: { readonly pot: PotLive; readonly onDial: (dial: number) => void }) {
  const { w, f } = useWords()
  const max = Math.min(12, Math.floor(props.pot.dialMax ?? 10))
  const [typed, setTyped] = useState('')
  const value = Number(typed.replace(',', '.'))
  const allowed = typed !== '' && Number.isFinite(value) && value >= 0 && value <= (props.pot.dialMax ?? 1000)
  return (
    <div class="dials">
      <div class="dial-grid">
        {Array.from({ length: max + 1 }, (_, dial) => (
          <button key={dial} type="button" class="button act" onClick={() => props.onDial(dial)}>
            {dial === 0 ? w.stove.dialOffButton : dial}
          </button>
        ))}
      </div>
      <form
        class="dial-typed"
        onSubmit={(e) => {
          e.preventDefault()
          if (allowed) props.onDial(value)
        }}
      >
        <input
          type="text"
          inputMode="decimal"
          aria-label={w.stove.dialTitle}
          placeholder={f.dial(3.5)}
          value={typed}
          onInput={(e) => setTyped(e.currentTarget.value)}
        />
        <button type="submit" class="button" disabled={!allowed}>
          {allowed ? w.stove.dialTo(f.dial(value)) : w.stove.dialTo('…')}
        </button>
      </form>
    </div>
  )
}
