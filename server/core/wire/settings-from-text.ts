import { nearestName } from './nearest-name.ts'
import type { FileSettings, SettingsLayer } from './settings.ts'

/** The fields that a variable of the environment or a flag may set, and how their text is read. */
const FROM_TEXT = {
  port: 'number',
  host: 'text',
  log: 'text',
  hosts: 'list',
  key: 'text',
  passphrase: 'text',
  studio: 'text',
  unit: 'text',
  zone: 'text',
  language: 'text',
  altitudeM: 'number',
  money: 'text',
} as const satisfies Partial<Record<keyof FileSettings, 'number' | 'text' | 'list'>>
type TextField = keyof typeof FROM_TEXT
const TEXT_FIELDS = Object.keys(FROM_TEXT) as readonly TextField[]

/** `HOLDFAST_DATA` and what other commands read: known, though no field of the file. */
const OTHER_VARIABLES = ['HOLDFAST_DATA', 'HOLDFAST_SERVER', 'HOLDFAST_BRIDGE', 'HOLDFAST_BRIDGE_KEY']

export const variableName = (field: string): string =>
  `HOLDFAST_${field.replaceAll(/[A-Z]/g, (letter) => `_${letter}`).toUpperCase()}`

/** `HOLDFAST_…` variables → layers, one a variable; or the sentence about one that isn't known. */
export function settingsFromVariables(
  environment: Readonly<Record<string, string | undefined>>,
): readonly SettingsLayer[] | string {
  const known = TEXT_FIELDS.map(variableName)
  const layers: SettingsLayer[] = []
  for (const [name, text] of Object.entries(environment)) {
    if (!name.startsWith('HOLDFAST_') || text === undefined || OTHER_VARIABLES.includes(name)) continue
    const field = TEXT_FIELDS.find((f) => variableName(f) === name)
    if (field === undefined)
      return `the variable ${name} is not known; the nearest known one is ${nearestName(name, [...known, ...OTHER_VARIABLES])}`
    layers.push({ where: name, field, values: { [field]: valueOf(field, text) } })
  }
  return layers
}

/** Flags of the command line → layers, one a flag: `--altitude-m 300`. */
export function settingsFromFlags(flags: Readonly<Record<string, unknown>>): readonly SettingsLayer[] {
  return TEXT_FIELDS.flatMap((field) => {
    const text = flags[flagName(field)]
    if (typeof text !== 'string') return []
    return [{ where: `--${flagName(field)}`, field, values: { [field]: valueOf(field, text) } }]
  })
}

const flagName = (field: string): string => field.replaceAll(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)

/** A number that is none stays text, so that the sentence shows what was found. */
function valueOf(field: TextField, text: string): unknown {
  switch (FROM_TEXT[field]) {
    case 'text':
      return text
    case 'list':
      return text.split(',').flatMap((part) => (part.trim() === '' ? [] : [part.trim()]))
    case 'number':
      return text.trim() !== '' && Number.isFinite(Number(text)) ? Number(text) : text
    default:
      return FROM_TEXT[field] satisfies never
  }
}
