import type { PotLive } from '#core/wire/live'
import { ceilingOf, windowOf } from '../../state/bath-standing.ts'
import { TRACE_SPAN_MS } from '../../state/trace-store.ts'
import { usePage, useWords } from '../page-context.ts'
import { useForecast } from './use-forecast.ts'
import { TraceChart } from './trace-chart.tsx'

/** The last hours of a pot, growing as it is watched; while it asks for somebody only what led to it. */
export function LiveTrace({ pot, asks }: { readonly pot: PotLive; readonly asks: boolean }) {
  const { w } = useWords()
  const { state, traces } = usePage()
  const forecast = useForecast(pot)
  if (pot.probe === null) return <p class="hint">{w.stove.noProbe}</p>
  const all = traces.of(pot.probe).value
  const nowMs = Math.floor(state.nowMs.value / STEP_MS) * STEP_MS
  const firstMs = all[0]?.[0] ?? nowMs - SHORTEST_MS
  const spanMs = asks ? ASKING_SPAN_MS : TRACE_SPAN_MS
  const fromMs = Math.max(nowMs - spanMs, Math.min(firstMs, nowMs - SHORTEST_MS))
  // What lies before the span would flatten the curve.
  const points = asks ? all.filter(([atMs]) => atMs >= fromMs) : all
  return (
    <TraceChart
      label={w.batch.traceOf(pot.title)}
      points={points}
      fromMs={fromMs}
      toMs={nowMs + (nowMs - fromMs) * (forecast.length === 0 ? AHEAD_01 : FORESEEN_01)}
      forecast={forecast}
      windowC={windowOf(pot.stage)}
      ceilingC={ceilingOf(pot.stage)}
      goalC={pot.stage?.kind === 'cool' ? pot.stage.coolToC : null}
    />
  )
}

/** The time axis moves on in steps, so that a chart is not laid out anew each second, ms. */
const STEP_MS = 5_000
/** Shown while an alarm stands: a bath drifts off over minutes, ms. */
const ASKING_SPAN_MS = 40 * 60_000
/** At least so much time is shown, ms. */
const SHORTEST_MS = 30 * 60_000
/** Room to the right of now, as a share of the span. */
const AHEAD_01 = 0.03
/** The same where it is known how the bath goes on. */
const FORESEEN_01 = 0.5
