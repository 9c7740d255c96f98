import type { Chart } from './chart-parts.ts'

let loaded: typeof Chart | null = null
let loading: Promise<typeof Chart> | null = null

/** The chart library, a third of the program: fetched once, and not before a page draws or nothing else is to do. */
export function loadChart(): Promise<typeof Chart> {
  loading ??= import('./chart-parts.ts').then((parts) => {
    loaded = parts.Chart
    return loaded
  })
  return loading
}

/** `null` until it is here. */
export const chartNow = (): typeof Chart | null => loaded
