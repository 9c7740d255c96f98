import { differenceF, fahrenheit } from '../measure/units.ts'
import { dateFormat, numberFormat } from './formats.ts'
import type { Person } from './person.ts'

/** A temperature on the person's scale. */
export const onScale = (tempC: number, { unit }: Person): number => (unit === 'F' ? fahrenheit(tempC) : tempC)

/** A difference in degrees of the person's scale: 5 °C of it are 9 °F. */
export const inDegrees = (dropC: number, { unit }: Person): number =>
  unit === 'F' ? differenceF(dropC) : dropC

/** The number alone, where the unit was said just before. */
export const tempNumber = (tempC: number, person: Person): string => decimal(onScale(tempC, person), person)

/** A temperature with one decimal and its unit: `71.8 °C`, `161.2 °F`. */
export const tempText = (tempC: number, person: Person): string =>
  `${tempNumber(tempC, person)} °${person.unit}`

/** The same with a decimal only where there is one: `72 °C`, `161.6 °F`. */
export const shortTempText = (tempC: number, person: Person): string =>
  `${short(onScale(tempC, person), person)} °${person.unit}`

/** A difference or a step with one decimal. */
export const differenceText = (dropC: number, person: Person): string =>
  `${decimal(inDegrees(dropC, person), person)} °${person.unit}`

export const shortDifferenceText = (dropC: number, person: Person): string =>
  `${short(inDegrees(dropC, person), person)} °${person.unit}`

const short = (value: number, person: Person): string => decimal(value, person).replace(/[.,]0$/, '')

/** A rate, without its sign: `0.6 °C a minute`. */
export const rateNumber = (rateCPerMin: number, person: Person): string =>
  differenceText(Math.abs(rateCPerMin), person)

/** A number with as many decimals as it needs, two at most: `3.5`, `2,25`. */
export const numberText = (value: number, person: Person): string =>
  numberFormat(person.language, { least: 0, most: 2, useGrouping: false }).format(value)

/** One decimal always. Half away from zero as a person would round the decimal number, and never `-0.0`. */
export function decimal(value: number, person: Person): string {
  const tenths = Math.round(Number(`${Math.abs(value).toFixed(6)}e1`)) * Math.sign(value)
  const format = numberFormat(person.language, { least: 1, most: 1, useGrouping: false })
  return format.format(tenths === 0 ? 0 : tenths / 10)
}

/** Minutes, to the nearest whole one. */
export const minutesNumber = (seconds: number): number => Math.round(seconds / 60)

/** The wall clock of the person's zone, 24 hours: `14:32`. */
export const clockText = (atMs: number, person: Person): string =>
  dateFormat(person.language, person.zone, 'clock').format(atMs)

/** A length of time in words: `45 s`, `4 min`, `2 h 5 min`. */
export function lengthText(lengthMs: number): string {
  const seconds = Math.round(lengthMs / 1000)
  if (seconds < 90) return `${seconds} s`
  const minutes = Math.round(seconds / 60)
  if (minutes < 120) return `${minutes} min`
  const rest = minutes % 60
  return rest === 0 ? `${minutes / 60} h` : `${Math.floor(minutes / 60)} h ${rest} min`
}

const PARTS: Readonly<Record<string, string>> = { '0.25': '¼', '0.5': '½', '0.75': '¾' }

/** A place on a dial as one reads it: `3½`, `¼`, `2.3`, `35`. */
export function dialMarkText(dial: number, person: Person): string {
  const whole = Math.floor(dial + 1e-9)
  const part = PARTS[String(Number((dial - whole).toFixed(4)))]
  if (part !== undefined) return whole === 0 ? part : `${whole}${part}`
  return numberText(Number(dial.toFixed(1)), person)
}
