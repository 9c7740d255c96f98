import type { PotLive } from '#core/wire/live'
import { dialMarkText } from '#core/words/numbers'
import { Mark } from '../part/mark.tsx'
import { useWords } from '../page-context.ts'

/** The guided evening that runs at a pot, and what it asks for now. */
export function EveningLine({ pot }: { readonly pot: PotLive }) {
  const { w, f } = useWords()
  if (!pot.evening) return null
  const { dial, lid, isSet } = pot.evening
  const dialWords = dial === 0 ? w.heat.turnOff : w.heat.turnTo(dialMarkText(dial, f.person))
  return (
    <a
      class={`evening-line ${isSet ? 'is-set' : 'to-set'}`}
      href={`#/pots/${encodeURIComponent(pot.potId)}/evening`}
    >
      <Mark name={isSet ? 'in-window' : 'soon'} />
      <span>{isSet ? w.heat.eveningRuns : w.heat.eveningAsks(dialWords, w.heat.lidShould[lid])}</span>
    </a>
  )
}
