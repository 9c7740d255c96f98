import type { PotLive } from '#core/wire/live'
import { ceilingOf, standingOf, windowOf } from '../../state/bath-standing.ts'
import { type Freshness, freshnessOf } from '../../state/freshness.ts'
import { BathRule } from '../part/bath-rule.tsx'
import { Mark } from '../part/mark.tsx'
import { usePage, useWords } from '../page-context.ts'
import type { Catalogue } from '../words/catalogue.ts'
import type { Format } from '../words/format.ts'

/** The freshness of a pot by the server's clock. */
export function useFreshness(pot: PotLive): Freshness {
  const { state } = usePage()
  return freshnessOf(pot, state.nowMs.value, state.stove.value.silent)
}

/** Why the number of a pot is no bath's now. */
export function staleWord(fresh: Exclude<Freshness, { kind: 'fresh' }>, w: Catalogue, f: Format): string {
  if (fresh.kind === 'none') return w.stove.neverRead
  return fresh.ageMs === null ? w.stove.notTheBath : w.stove.noReading(f.span(fresh.ageMs))
}

/** The bath in one glance: number, shape and word, and how much room is left. */
export function PotReading({ pot }: { readonly pot: PotLive }) {
  const { w, f } = useWords()
  const fresh = useFreshness(pot)
  return (
    <div class={`reading reading-${fresh.kind}`}>
      <BathNumber fresh={fresh} />
      {fresh.kind === 'fresh' ? (
        <FreshLine pot={pot} tempC={fresh.tempC} />
      ) : (
        <p class="standing standing-stale">
          <Mark name="stale" />
          <span>{pot.probe === null ? w.stove.noProbe : staleWord(fresh, w, f)}</span>
        </p>
      )}
      <BathRule
        tempC={fresh.kind === 'fresh' ? fresh.tempC : null}
        windowC={windowOf(pot.stage)}
        ceilingC={ceilingOf(pot.stage)}
        coolToC={pot.stage?.kind === 'cool' ? pot.stage.coolToC : null}
      />
      <PotWindow pot={pot} />
    </div>
  )
}

function BathNumber({ fresh }: { readonly fresh: Freshness }) {
  const { f } = useWords()
  const tempC = fresh.kind === 'fresh' ? fresh.tempC : fresh.kind === 'stale' ? fresh.lastC : null
  const digits = tempC === null ? '– –' : f.number(tempC)
  return (
    <p class={digits.length > 4 ? 'number long' : 'number'}>
      <span class="digits">{digits}</span>
      <span class="unit">{f.unit}</span>
    </p>
  )
}

function FreshLine({ pot, tempC }: { readonly pot: PotLive; readonly tempC: number }) {
  const { w, f } = useWords()
  const standing = standingOf(pot.stage, tempC)
  const rate = pot.isRateSettling ? null : pot.rateCPerMin
  return (
    <p class={`standing standing-${standing} ${pot.hold?.state === 'waiting' ? 'on-the-way' : ''}`}>
      {standing !== 'no-window' && <Mark name={standing} />}
      {standing !== 'no-window' && <span>{w.stove.standing[standing]}</span>}
      <span class="rate">
        {rate === null
          ? w.stove.rateLater
          : Math.abs(rate) < STEADY_C_PER_MIN
            ? w.stove.steady
            : f.rate(rate)}
      </span>
    </p>
  )
}

/** Slower than the last shown digit could tell, °C a minute. */
const STEADY_C_PER_MIN = 0.05

function PotWindow({ pot }: { readonly pot: PotLive }) {
  const { w, f } = useWords()
  const window = windowOf(pot.stage)
  const ceilingC = ceilingOf(pot.stage)
  const parts = [
    window === null ? null : w.stove.window(f.range(window[0], window[1])),
    ceilingC === null ? null : w.stove.ceiling(f.temp(ceilingC)),
    pot.stage?.kind === 'cool' ? w.stove.coolTo(f.temp(pot.stage.coolToC)) : null,
  ].filter((part) => part !== null)
  if (parts.length === 0) return null
  return <p class="window-text">{parts.join(' · ')}</p>
}
