import type { PotForecast } from '#core/bath/pot-forecast'

type Point = readonly [atMs: number, tempC: number, low90C: number, high90C: number]

const tenths = (tempC: number): number => Math.round(tempC * 10) / 10

/** A forecast as a curve for a chart. Its band is even about its middle. */
export const forecastPath = (
  forecast: PotForecast | null,
  atMs: number,
): { readonly atMs: number; readonly path: readonly Point[] } => ({
  atMs,
  path: (forecast?.band90C ?? []).map(([ms, lowC, highC]): Point => [
    ms,
    tenths((lowC + highC) / 2),
    tenths(lowC),
    tenths(highC),
  ]),
})
