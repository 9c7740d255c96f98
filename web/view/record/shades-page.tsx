import { useState } from 'preact/hooks'
import { roleOf } from '#core/batch/additive-roles'
import type { FacetCount } from '../../state/facets.ts'
import { Show } from '../part/fetched.tsx'
import { SelectField } from '../part/field.tsx'
import { useAnswer } from '../part/use-answer.ts'
import { useWords } from '../page-context.ts'
import type { Shade } from './shade.ts'
import { Swatch } from './swatch.tsx'

/** Swatches of all results, by dye and strength. */
export function ShadesPage() {
  const { w } = useWords()
  const [additive, setAdditive] = useState('')
  const { shades } = w.record
  const { asked } = useAnswer<readonly FacetCount[]>('/api/facets')
  const dyes = asked?.ok === true ? asked.value.filter(isDye) : []
  const path = additive === '' ? '/api/shades' : `/api/shades?additive=${encodeURIComponent(additive)}`
  const found = useAnswer<readonly Shade[]>(path)
  return (
    <div class="wide">
      <h1>{shades.title}</h1>
      <p>{shades.help}</p>
      <div class="one-line">
        <SelectField
          label={shades.additive}
          value={additive}
          options={[['', shades.all], ...dyes.map(({ value }) => [value, value] as const)]}
          onValue={setAdditive}
        />
      </div>
      <Show of={found}>
        {(all) => (all.length === 0 ? <p>{shades.none}</p> : <ShadeCard shades={byStrength(all)} />)}
      </Show>
    </div>
  )
}

/** Mordants and helps have no swatches of their own. */
const isDye = ({ kind, value }: FacetCount): boolean => kind === 'additive' && roleOf(value) === 'dye'

const byStrength = (shades: readonly Shade[]): readonly Shade[] =>
  [...shades].sort((a, b) => (a.percentWof ?? Infinity) - (b.percentWof ?? Infinity))

function ShadeCard({ shades }: { readonly shades: readonly Shade[] }) {
  const { w, f } = useWords()
  return (
    <ul class="shade-card">
      {shades.map((shade) => (
        <li key={shade.batchId}>
          <Swatch lab={shade.lab} />
          <a href={`#/batches/${shade.batchId}`}>{shade.title}</a>
          <p class="row-more">
            {[
              shade.fibre,
              shade.percentWof === null ? null : w.record.shades.strength(f.amount(shade.percentWof)),
            ]
              .filter((part) => part !== null)
              .join(' · ')}
          </p>
          <p class="row-more">
            {w.record.picker.found(
              f.amount(shade.lab.lightness),
              f.amount(shade.lab.a),
              f.amount(shade.lab.b),
            )}
          </p>
        </li>
      ))}
    </ul>
  )
}
