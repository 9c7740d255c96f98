import { type StoveState, potForecast } from '../watch/stove.ts'
import { iso } from './replay-lines.ts'

const isoOrNull = (atMs: number | null): string | null => (atMs === null ? null : iso(Math.round(atMs)))
const hundredths = (tempC: number): number => Math.round(tempC * 100) / 100

/** What was to come at a moment of the trace; `null` outside of a stage or while the bath isn't seen. */
export function forecastLine(state: StoveState, potId: string, atMs: number): object | null {
  const stage = state.pots[potId]?.run?.stage
  const forecast = stage === undefined ? null : potForecast(state, potId, atMs)
  if (stage === undefined || forecast === null) return null
  return {
    kind: 'forecast',
    at: iso(atMs),
    stage: stage.id,
    reachesWindowAt: isoOrNull(forecast.reachesWindowMs),
    reachesCoolToAt: isoOrNull(forecast.reachesCoolToMs),
    peakC: forecast.peakC === null ? null : hundredths(forecast.peakC),
    band90C: forecast.band90C.map(([ms, lowC, highC]) => [ms, hundredths(lowC), hundredths(highC)]),
  }
}
