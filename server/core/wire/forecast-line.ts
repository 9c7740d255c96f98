import { type StoveState, potForecast } from '../watch/stove.ts'
import { iso } from './replay-lines.ts'

const isoOrNull = (atMs: number | null): string | null => (atMs === null ? null : iso(Math.round(atMs)))
const hundredths = (tempC: number): number => Math.round(tempC * 100) / 100

const NOTHING = { reachesWindowMs: null, reachesCoolToMs: null, peakC: null, band90C: [] } as const

/**
 * What was to come at a moment of the trace; `null` outside of a stage. While nobody sees the bath the line
 * comes all the same and says nothing: a reader counts on one every five minutes.
 */
export function forecastLine(state: StoveState, potId: string, atMs: number): object | null {
  const stage = state.pots[potId]?.run?.stage
  if (stage === undefined) return null
  const forecast = potForecast(state, potId, atMs) ?? NOTHING
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
