import { fahrenheit } from '#core/measure/units'
import type { Format } from '../words/format.ts'

/** °C → the number on the person's scale. */
export const shownDegrees = (f: Format): ((tempC: number) => number) =>
  f.unit === '°F' ? fahrenheit : (tempC) => tempC
