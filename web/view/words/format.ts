import { dateFormat, numberFormat } from '#core/words/formats'
import type { Person } from '#core/words/person'
import {
  clockText,
  differenceText,
  lengthText,
  minutesNumber,
  numberText,
  rateNumber,
  tempNumber,
  tempText,
} from '#core/words/numbers'
import { gramsFromOunces, litresFromUsGallons, ounces, usGallons } from '#core/batch/weight-units'
import type { DeviceSettings } from '../../state/device-settings.ts'
import { LANGUAGE_TAGS, type Language } from '../../state/language.ts'

/** Numbers and times as the person at this device reads them. Temperatures in °C; times in Unix ms. */
export interface Format {
  /** For the sentences that the core makes. */
  readonly person: Person
  readonly unit: '°C' | '°F'
  temp(tempC: number): string
  /** Where the unit stands beside it. */
  number(tempC: number): string
  /** `80–86 °C` */
  range(lowC: number, highC: number): string
  /** A difference is never shifted by 32. */
  drop(dropC: number): string
  /** `+0.6 °C/min` */
  rate(rateCPerMin: number): string
  /** The same without its sign: a bound, `1.5 °C/min`. */
  pace(rateCPerMin: number): string
  clock(atMs: number): string
  /** A time to come: the clock, and the day with it when it isn't today: `Wed 09:37`. */
  when(atMs: number, nowMs: number): string
  /** `Tue 3 Mar, 14:32` */
  day(atMs: number): string
  date(atMs: number): string
  span(lengthMs: number): string
  /** Whole minutes that are full: a hold that runs must not look done before it is. Of seconds. */
  minutes(lengthS: number): string
  /** The nearest whole minute, as the sentences of the core tell it. Of seconds. */
  nearMinutes(lengthS: number): string
  /** To be read, not typed over: a minus is a minus sign, as in rates. */
  amount(value: number, digits?: number): string
  /** With exactly so many decimals, as a scale shows it: `48.00`. */
  fixed(value: number, decimals: number): string
  /** A number in a field, with this person's decimal mark; what is no number stays as it is typed. */
  typed(text: string): string
  /** A place on the dial as it was noted: `3.5`. */
  dial(dial: number): string
  /** What prices of this studio are in; `null`: nobody has said. */
  readonly moneyUnit: string | null
  /** `45.50 EUR`; another unit where a batch was reckoned in one. */
  money(value: number, inMoney?: string | null): string
  readonly weightUnit: 'g' | 'oz'
  readonly volumeUnit: 'L' | 'gal'
  /** `297.5 g`, `10.49 oz` */
  weight(weightG: number): string
  /** As it stands in a field, to be typed over: no unit, no grouping, and a point in every language. */
  weightField(weightG: number): string
  volume(volumeL: number): string
  /** Grams → the number in this person's unit, and back. */
  weightOf(weightG: number): number
  gramsOf(weight: number): number
  volumeOf(volumeL: number): number
  litresOf(volume: number): number
}

/** @param zone an IANA name; the device's own when left out. */
export function formatFor(
  settings: Pick<DeviceSettings, 'unit'> &
    Partial<Pick<DeviceSettings, 'weights'>> & { readonly money?: string | null },
  zone = deviceZone(),
  language: Language = 'en',
): Format {
  const person: Person = { unit: settings.unit, zone, language: LANGUAGE_TAGS[language] }
  const day = dateFormat(person.language, zone, 'day')
  const date = dateFormat(person.language, zone, 'date')
  const weekday = dateFormat(person.language, zone, 'weekday')
  const digits = (value: number, least: number, most: number) =>
    numberFormat(person.language, { least, most, useGrouping: true }).format(value)
  const unit = settings.unit === 'F' ? '°F' : '°C'
  const isUs = settings.weights === 'us'
  const amount = (value: number, most = 1) => digits(value, 0, most).replace('-', '−')
  const short = (tempC: number) => tempNumber(tempC, person).replace(/[.,]0$/, '')
  return {
    person,
    unit,
    temp: (tempC) => tempText(tempC, person),
    number: (tempC) => tempNumber(tempC, person),
    range: (lowC, highC) => `${short(lowC)}–${short(highC)} ${unit}`,
    drop: (dropC) => differenceText(dropC, person),
    rate: (rate) => `${rate < 0 ? '−' : '+'}${rateNumber(rate, person)}/min`,
    pace: (rate) => `${rateNumber(rate, person)}/min`,
    clock: (atMs) => clockText(atMs, person),
    when: (atMs, nowMs) =>
      date.format(atMs) === date.format(nowMs)
        ? clockText(atMs, person)
        : dayed(weekday.format(atMs), clockText(atMs, person), language),
    day: (atMs) => `${day.format(atMs)}, ${clockText(atMs, person)}`,
    date: (atMs) => date.format(atMs),
    span: lengthText,
    minutes: (lengthS) => `${Math.floor(lengthS / 60)} min`,
    nearMinutes: (lengthS) => `${minutesNumber(lengthS)} min`,
    amount,
    fixed: (value, decimals) => digits(value, decimals, decimals),
    typed: (text) => (language === 'de' ? text.replace(/^([-+−]?\d*)\.(\d*)$/, '$1,$2') : text),
    dial: (dial) => numberText(dial, person),
    moneyUnit: settings.money ?? null,
    money: (value, inMoney = settings.money ?? null) =>
      [digits(value, Number.isInteger(value) ? 0 : 2, 2), inMoney]
        .filter((part) => part !== null)
        .join('\u00a0'),
    weightUnit: isUs ? 'oz' : 'g',
    volumeUnit: isUs ? 'gal' : 'L',
    weight: (weightG) => (isUs ? `${amount(ounces(weightG), 2)} oz` : `${amount(weightG)} g`),
    weightField: (weightG) => String(Math.round((isUs ? ounces(weightG) : weightG) * 100) / 100),
    volume: (volumeL) => (isUs ? `${amount(usGallons(volumeL), 2)} gal` : `${amount(volumeL)} L`),
    weightOf: (weightG) => (isUs ? ounces(weightG) : weightG),
    gramsOf: (weight) => (isUs ? gramsFromOunces(weight) : weight),
    volumeOf: (volumeL) => (isUs ? usGallons(volumeL) : volumeL),
    litresOf: (volume) => (isUs ? litresFromUsGallons(volume) : volume),
  }
}

/** After a German “um” the clock comes first: `um 09:37 (Mi)`. */
const dayed = (day: string, clock: string, language: Language): string =>
  language === 'de' ? `${clock} (${day})` : `${day} ${clock}`

const deviceZone = (): string => Intl.DateTimeFormat().resolvedOptions().timeZone
