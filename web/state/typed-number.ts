import { readNumber } from '#core/measure/read-number'
import { celsius, differenceC, differenceF, fahrenheit } from '#core/measure/units'
import type { DeviceSettings } from './device-settings.ts'

export type Unit = DeviceSettings['unit']

/** `C`: a temperature; `rate`: a difference, also a minute; the others have no unit to turn. */
export type NumberSort = 'C' | 'rate' | 'plain' | 'length' | 'ph'

/** A number in °C → as it stands in a form. Two decimals are finer than any probe; trailing zeros are left out. */
export function shownNumber(value: number, sort: NumberSort, unit: Unit): string {
  const isTurned = unit === 'F' && (sort === 'C' || sort === 'rate')
  if (!isTurned) return String(value)
  return String(Math.round((sort === 'C' ? fahrenheit(value) : differenceF(value)) * 100) / 100)
}

/**
 * What was typed → °C; `null` when it isn't a number. `read`: what stood there before; where nobody typed over it, it
 * stays to the last digit, whatever the person's unit. What is typed in °F is rounded to a ten-thousandth, so that
 * 176 °F is 80 °C and not 79.99999.
 */
export function typedNumber(
  typed: string,
  sort: NumberSort,
  unit: Unit,
  read: number | undefined,
): number | null {
  if (read !== undefined && typed === shownNumber(read, sort, unit)) return read
  const value = readNumber(typed.replace('−', '-'))
  if (value === null || unit === 'C' || (sort !== 'C' && sort !== 'rate')) return value
  return Math.round((sort === 'C' ? celsius(value) : differenceC(value)) * 1e4) / 1e4
}
