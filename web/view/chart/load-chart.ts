import type { Chart } from './chart-parts.ts'

let loaded: typeof Chart | null = null

/**
 * The chart library, a third of the program: fetched beside it as soon as the page begins, so that what needs no chart
 * stands there sooner.
 */
export const chartLoading: Promise<typeof Chart> = import('./chart-parts.ts').then((parts) => {
  loaded = parts.Chart
  return loaded
})

/** `null` until it is here. */
export const chartNow = (): typeof Chart | null => loaded
