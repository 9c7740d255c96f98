import { differenceF, fahrenheit } from '../measure/units.ts'
import type { Person } from './person.ts'

/** A temperature with one decimal and its unit: `71.8 °C`, `161.2 °F`. */
export function tempText(tempC: number, person: Person): string {
  return person.unit === 'F' ? `${decimal(fahrenheit(tempC), person)} °F` : `${decimal(tempC, person)} °C`
}

/** The number alone, where the unit was said just before. */
export const tempNumber = (tempC: number, person: Person): string =>
  decimal(person.unit === 'F' ? fahrenheit(tempC) : tempC, person)

/** A difference or a step: 5 °C of it are 9 °F. */
export function differenceText(dropC: number, person: Person): string {
  const size = person.unit === 'F' ? differenceF(dropC) : dropC
  return `${decimal(size, person)} °${person.unit}`
}

/** A rate, without its sign: `0.6 °C a minute`. */
export const rateNumber = (rateCPerMin: number, person: Person): string =>
  differenceText(Math.abs(rateCPerMin), person)

/** Half away from zero on the decimal number as a person would round it, and never `-0.0`. */
function decimal(value: number, person: Person): string {
  const tenths = Math.round(Number(`${Math.abs(value).toFixed(6)}e1`)) * Math.sign(value)
  const format = new Intl.NumberFormat(person.language, {
    minimumFractionDigits: 1,
    maximumFractionDigits: 1,
    useGrouping: false,
  })
  return format.format(tenths === 0 ? 0 : tenths / 10)
}

/** Minutes, to the nearest whole one. */
export const minutesNumber = (seconds: number): number => Math.round(seconds / 60)

/** The wall clock of the person's zone, 24 hours: `14:32`. */
export function clockText(atMs: number, person: Person): string {
  return new Intl.DateTimeFormat(person.language, {
    hour: '2-digit',
    minute: '2-digit',
    hourCycle: 'h23',
    timeZone: person.zone,
  }).format(atMs)
}

/** A length of time in words: `45 s`, `4 min`, `2 h 5 min`. */
export function lengthText(lengthMs: number): string {
  const seconds = Math.round(lengthMs / 1000)
  if (seconds < 90) return `${seconds} s`
  const minutes = Math.round(seconds / 60)
  if (minutes < 120) return `${minutes} min`
  const rest = minutes % 60
  return rest === 0 ? `${minutes / 60} h` : `${Math.floor(minutes / 60)} h ${rest} min`
}
