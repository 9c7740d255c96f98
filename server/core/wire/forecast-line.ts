import { numbersOf } from '../watch/numbers-of.ts'
import type { StoveState } from '../watch/stove.ts'
import { iso } from './replay-lines.ts'

const isoOrNull = (atMs: number | null): string | null => (atMs === null ? null : iso(Math.round(atMs)))

/** What was to come at a moment of the trace; `null` outside of a stage or while the bath isn't seen. */
export function forecastLine(state: StoveState, potId: string, atMs: number): object | null {
  const pot = state.pots[potId]
  if (pot === undefined || pot.run === null) return null
  const { forecast } = numbersOf(pot, atMs)
  if (forecast === null) return null
  return {
    kind: 'forecast',
    at: iso(atMs),
    stage: pot.run.stage.id,
    reachesWindowAt: isoOrNull(forecast.reachesWindowMs),
    reachesCoolToAt: isoOrNull(forecast.reachesCoolToMs),
    peakC: forecast.peakC,
    band90C: [],
  }
}
