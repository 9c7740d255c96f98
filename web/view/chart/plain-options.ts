import type { ChartColours } from './chart-colours.ts'

/** What all line charts of the page have in common: no animation, points used as they are, the nearest one told. */
export const PLAIN_OPTIONS = {
  animation: false,
  parsing: false,
  normalized: true,
  maintainAspectRatio: false,
  interaction: { mode: 'nearest', axis: 'x', intersect: false },
} as const

/** The upright axis over a range in °C, marked in the person's unit at whole degrees. */
export function tempAxis(
  [lowC, highC]: readonly [number, number],
  colours: ChartColours,
  shown: (tempC: number) => number,
) {
  return {
    min: Math.floor(shown(lowC)),
    max: Math.ceil(shown(highC)),
    grid: { color: colours.grid },
    border: { display: false },
    ticks: {
      color: colours.text,
      maxTicksLimit: 6,
      includeBounds: false,
      callback: (value: string | number) => `${value}°`,
    },
  }
}
