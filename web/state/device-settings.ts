import type { LanguageChoice } from './language.ts'

/** What this device remembers for the person at it. */
export interface DeviceSettings {
  readonly unit: 'C' | 'F'
  /** Grams and litres, or ounces and US gallons. */
  readonly weights: 'metric' | 'us'
  /** What the last digit of the scale counts, in the weight unit of this device. */
  readonly scaleStep: number
  /** 0 … 1; the browser's and the device's own volume come on top. */
  readonly loudness01: number
  readonly theme: 'as-device' | 'light' | 'dark'
  /** Who says "I'm there" here; may be empty. */
  readonly who: string
  readonly language: LanguageChoice
  /** The person wants to be called with sound on this device. */
  readonly soundWanted: boolean
}

export const DEFAULT_SETTINGS: DeviceSettings = {
  unit: 'C',
  weights: 'metric',
  scaleStep: 0.1,
  loudness01: 0.8,
  theme: 'as-device',
  who: '',
  language: 'as-device',
  soundWanted: false,
}

/** Anything that was stored → settings; what is missing or not allowed has its default. */
export function readSettings(stored: string | null): DeviceSettings {
  const found = parseRecord(stored)
  const { unit, weights, scaleStep, loudness01, theme, who, language, soundWanted } = found
  return {
    unit: unit === 'F' ? 'F' : 'C',
    weights: weights === 'us' ? 'us' : 'metric',
    scaleStep: SCALE_STEPS.find((step) => step === scaleStep) ?? DEFAULT_SETTINGS.scaleStep,
    loudness01:
      typeof loudness01 === 'number' && loudness01 >= 0 && loudness01 <= 1
        ? loudness01
        : DEFAULT_SETTINGS.loudness01,
    theme: theme === 'light' || theme === 'dark' ? theme : 'as-device',
    who: typeof who === 'string' ? who.slice(0, WHO_LENGTH) : '',
    language: LANGUAGE_CHOICES.find((choice) => choice === language) ?? DEFAULT_SETTINGS.language,
    soundWanted: soundWanted === true,
  }
}

/** Steps of usual scales, in grams or ounces. */
export const SCALE_STEPS: readonly number[] = [0.01, 0.05, 0.1, 0.5, 1, 5]

export const LANGUAGE_CHOICES: readonly LanguageChoice[] = ['as-device', 'en', 'de', 'pseudo']

export const WHO_LENGTH = 40

function parseRecord(stored: string | null): Readonly<Record<string, unknown>> {
  try {
    const value: unknown = JSON.parse(stored ?? '{}')
    return typeof value === 'object' && value !== null ? { ...value } : {}
  } catch {
    return {}
  }
}
