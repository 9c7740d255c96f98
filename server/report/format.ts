import { ounces, usGallons } from '#core/batch/weight-units'
import { inDegrees, onScale, tempText } from '#core/words/numbers'
import type { PrintFor } from './print-for.ts'

/** Numbers, units and times as the person reads them. */
export interface Format {
  readonly temp: (tempC: number | null) => string
  readonly window: (windowC: readonly [low: number, high: number]) => string
  readonly rate: (rateCPerMin: number) => string
  readonly weight: (weightG: number | null) => string
  readonly volume: (volumeL: number | null) => string
  readonly number: (value: number, decimals?: number) => string
  readonly percent: (value: number) => string
  readonly minutes: (min: number) => string
  readonly seconds: (s: number) => string
  readonly date: (atMs: number) => string
  readonly time: (atMs: number) => string
  readonly dateTime: (atMs: number) => string
}

/** What stands where nothing is known. */
const UNKNOWN = '–'

/** Formats for one reader. Throws RangeError for a zone that isn't known. */
export function formatFor(reader: PrintFor): Format {
  const number = (value: number, decimals = 1) =>
    value.toLocaleString(reader.language, { maximumFractionDigits: decimals })
  const unit = `°${reader.unit}`
  return {
    temp: (tempC) => (tempC === null ? UNKNOWN : tempText(tempC, reader)),
    window: ([lowC, highC]) => `${number(onScale(lowC, reader))}–${number(onScale(highC, reader))} ${unit}`,
    rate: (rate) => `${number(inDegrees(rate, reader))} ${unit}/min`,
    weight: (weightG) => (weightG === null ? UNKNOWN : weightText(weightG, reader, number)),
    volume: (volumeL) => (volumeL === null ? UNKNOWN : volumeText(volumeL, reader, number)),
    number,
    percent: (value) => `${number(value)} %`,
    minutes: (min) => (min < 120 ? `${number(min, 0)} min` : hoursText(min)),
    seconds: (s) => (s < 90 ? `${number(s, 0)} s` : `${number(s / 60, 0)} min`),
    ...times(reader),
  }
}

type NumberText = (value: number, decimals?: number) => string

function weightText(weightG: number, reader: PrintFor, number: NumberText): string {
  if (reader.weights === 'us') return `${number(ounces(weightG), 2)} oz`
  return `${number(weightG, weightG < 10 ? 2 : 1)} g`
}

function volumeText(volumeL: number, reader: PrintFor, number: NumberText): string {
  return reader.weights === 'us' ? `${number(usGallons(volumeL), 2)} gal` : `${number(volumeL, 2)} L`
}

const hoursText = (min: number): string => {
  const whole = Math.round(min)
  const rest = whole % 60
  return rest === 0 ? `${whole / 60} h` : `${Math.floor(whole / 60)} h ${rest} min`
}

function times(reader: PrintFor): Pick<Format, 'date' | 'time' | 'dateTime'> {
  const date = intl(reader, { dateStyle: 'medium' })
  const time = intl(reader, { hour: '2-digit', minute: '2-digit', hourCycle: 'h23' })
  return {
    date: (atMs) => date.format(atMs),
    time: (atMs) => time.format(atMs),
    dateTime: (atMs) => `${date.format(atMs)}, ${time.format(atMs)}`,
  }
}

/** English dates in the order day, month, year: the same for all its readers. */
const intl = (reader: PrintFor, options: Intl.DateTimeFormatOptions) =>
  new Intl.DateTimeFormat(reader.language === 'en' ? 'en-GB' : 'de-DE', { ...options, timeZone: reader.zone })
