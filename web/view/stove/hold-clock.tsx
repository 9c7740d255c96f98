import type { HoldLive } from '#core/wire/live'
import { useWords } from '../page-context.ts'
import type { Catalogue } from '../words/catalogue.ts'
import type { Format } from '../words/format.ts'

/** How long the goods were in the window, of how long they should be: only honest seconds fill the bar. */
export function HoldClock({ hold, full }: { readonly hold: HoldLive; readonly full: boolean }) {
  const { w, f } = useWords()
  const done = w.stove.holdOf(f.minutes(hold.inWindowS), f.minutes(hold.requiredS))
  const lost = lostParts(hold, w, f)
  return (
    <div class={`hold hold-${hold.state}`}>
      <p class="hold-text">{done}</p>
      <progress
        max={hold.requiredS}
        value={Math.min(hold.inWindowS, hold.requiredS)}
        aria-label={w.stove.holdState[hold.state]}
      />
      <p class="hold-state">{w.stove.holdState[hold.state]}</p>
      {full && lost !== '' && <p class="hold-lost">{w.stove.holdLost(lost)}</p>}
    </div>
  )
}

/** Seconds that did not count, by why; parts under a minute are left out. */
function lostParts(hold: HoldLive, w: Catalogue, f: Format): string {
  const parts: readonly (readonly [number, (t: string) => string])[] = [
    [hold.belowWindowS, w.stove.lostBelow],
    [hold.aboveWindowS, w.stove.lostAbove],
    [hold.aboveCeilingS, w.stove.lostCeiling],
    [hold.unknownS, w.stove.lostUnknown],
    [hold.goodsOutS, w.stove.lostOut],
  ]
  return parts
    .filter(([seconds]) => seconds >= 60)
    .map(([seconds, words]) => words(f.minutes(seconds)))
    .join(', ')
}
