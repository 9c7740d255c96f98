import { useState } from 'preact/hooks'
import type { PotRecord } from '#core/wire/records'
import { useWords } from '../page-context.ts'
import { PotForm } from './pot-form.tsx'

/** The pots with their water and burner. */
export function PotList(props: { readonly pots: readonly PotRecord[]; readonly onChange: () => void }) {
  const { w, f } = useWords()
  const [open, setOpen] = useState<string | null>(null)
  const done = () => {
    setOpen(null)
    props.onChange()
  }
  return (
    <>
      {props.pots.length === 0 && <p>{w.probe.noPots}</p>}
      <ul class="row-list">
        {props.pots.map((pot) => (
          <li key={pot.id}>
            <div class="row-main">
              <strong>{pot.title}</strong>
              <p class="row-more">
                {[
                  pot.vessel === null ? null : f.volume(pot.vessel.litres),
                  pot.vessel?.burner.kind === undefined ? null : w.probe.burners[pot.vessel.burner.kind],
                  pot.vessel === null ? null : w.probe.dialTo(f.amount(pot.vessel.burner.dialMax)),
                  pot.probe === null ? w.stove.noProbe : pot.probe,
                ]
                  .filter((part) => part !== null)
                  .join(' · ')}
              </p>
            </div>
            <a class="button quiet" href={`#/pots/${encodeURIComponent(pot.id)}/burner`}>
              {w.heat.toBurner}
              <span class="visually-hidden"> {pot.title}</span>
            </a>
            <button
              type="button"
              class="button"
              aria-label={w.probe.editPot(pot.title)}
              onClick={() => setOpen(pot.id)}
            >
              {w.plan.edit}
            </button>
            {open === pot.id && <PotForm pot={pot} onDone={done} />}
          </li>
        ))}
      </ul>
      {open === '' ? (
        <PotForm pot={null} onDone={done} />
      ) : (
        <div class="buttons">
          <button type="button" class="button" onClick={() => setOpen('')}>
            {w.probe.addPot}
          </button>
        </div>
      )}
    </>
  )
}
