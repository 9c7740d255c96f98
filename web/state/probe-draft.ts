import { readNumber } from '#core/measure/read-number'
import { ALL_FIELDS, type AddableKind, fieldsOf, placeOf, type ProbeField } from './probe-fields.ts'

/** What a form holds, as typed. */
export type ProbeTexts = Readonly<Record<ProbeField, string>>

/** An entry of `probes` in the settings. */
export type ProbeEntry = Readonly<Record<string, unknown>>

const USUAL: Partial<ProbeTexts> = {
  baud: '9600',
  line: '{tempC}',
  station: '1',
  address: '0',
  scale: '0.1',
  url: 'mqtt://127.0.0.1:1883',
  folder: '/sys/bus/w1/devices',
}

export const EMPTY_PROBE: ProbeTexts = {
  ...(Object.fromEntries(
    ALL_FIELDS.map((field) => {
      const { shape } = placeOf(field)
      return [field, typeof shape === 'string' ? '' : shape[0]!]
    }),
  ) as ProbeTexts),
  ...USUAL,
}

/** An entry as a form shows it. A password is never among it. */
export function textsOf(entry: ProbeEntry): ProbeTexts {
  const texts = ALL_FIELDS.map((field) => {
    const { at, shape } = placeOf(field)
    const value = at === null ? madeText(field, entry) : valueAt(entry, at)
    const isKnown = typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean'
    const isShown = isKnown && (typeof shape === 'string' || shape.includes(String(value)))
    return [field, isShown ? String(value) : typeof shape === 'string' ? '' : shape[0]!]
  })
  return Object.fromEntries(texts) as ProbeTexts
}

/**
 * The entry that a form makes. What it has no field for is as in `before`. What is no number goes on as it was typed:
 * the server's sentence says what is allowed.
 */
export function probeEntry(kind: AddableKind, texts: ProbeTexts, before: ProbeEntry = {}): ProbeEntry {
  const start: ProbeEntry = before['kind'] === kind ? before : {}
  const { first, more } = fieldsOf(kind)
  const fields: readonly ProbeField[] = ['name', ...first, ...more, 'lagS']
  const placed = fields.reduce<ProbeEntry>(
    (entry, field) => {
      const { at } = placeOf(field)
      return at === null ? entry : (withValue(entry, at, typedValue(field, texts[field])) as ProbeEntry)
    },
    { ...start, kind },
  )
  switch (kind) {
    case 'serial-lines':
      return withValue(placed, ['names'], namesOf(texts.names, start)) as ProbeEntry
    case 'mqtt':
      return { ...placed, payload: payloadOf(texts) }
    case 'one-wire-files':
      return withValue(placed, ['devices'], devicesOf(texts)) as ProbeEntry
    case 'serial-senml':
    case 'modbus-rtu':
    case 'recorded':
      return placed
    default:
      return kind satisfies never
  }
}

/** `undefined`: left out. */
function typedValue(field: ProbeField, text: string): unknown {
  const { shape } = placeOf(field)
  const typed = shape === 'text' || shape === 'secret' ? text : text.trim()
  if (typed === '') return undefined
  if (typeof shape === 'string') return shape === 'number' ? (readNumber(typed) ?? typed) : typed
  if (typed === 'true' || typed === 'false') return typed === 'true'
  return /^\d+$/.test(typed) ? Number(typed) : typed
}

function madeText(field: ProbeField, entry: ProbeEntry): string | undefined {
  const { names, payload, devices, name } = entry
  const isJson = typeof payload === 'object' && payload !== null
  if (field === 'names') return Array.isArray(names) ? names.join(', ') : undefined
  if (field === 'payload') return isJson ? undefined : (payload as string | undefined)
  if (field === 'device' && typeof devices === 'object' && devices !== null)
    return Object.entries(devices)
      .map(([device, probe]) => (probe === name ? device : `${device}=${String(probe)}`))
      .join(', ')
  return isJson ? (payload as Record<string, string>)[field] : undefined
}

/** Names that the line itself gives (a table of words) have no field and stay. */
function namesOf(text: string, start: ProbeEntry): unknown {
  const names = partsOf(text)
  if (names.length > 0) return names
  return Array.isArray(start['names']) ? undefined : start['names']
}

function payloadOf({ payload, pointer, battery }: ProbeTexts): unknown {
  if (pointer.trim() === '') return payload
  return { pointer: pointer.trim(), ...(battery.trim() === '' ? {} : { battery: battery.trim() }) }
}

/** `28-…` is this probe, `28-…=wren` another one; none: each device of the bus is a probe. */
function devicesOf({ device, name }: ProbeTexts): unknown {
  const pairs = partsOf(device).map((part) => part.split('=').map((side) => side.trim()))
  return pairs.length === 0
    ? undefined
    : Object.fromEntries(pairs.map(([d, probe]) => [d, probe ?? name.trim()]))
}

const partsOf = (text: string): readonly string[] =>
  text
    .split(',')
    .map((part) => part.trim())
    .filter((part) => part !== '')

function valueAt(value: unknown, at: readonly (string | number)[]): unknown {
  return at.reduce<unknown>(
    (inner, key) =>
      typeof inner === 'object' && inner !== null
        ? (inner as Record<string | number, unknown>)[key]
        : undefined,
    value,
  )
}

/** A copy with `value` at a place, `undefined` for without it; what becomes empty by that goes, too. */
function withValue(whole: unknown, [key, ...rest]: readonly (string | number)[], value: unknown): unknown {
  if (key === undefined) return value
  const inner = withValue(valueAt(whole, [key]), rest, value)
  if (typeof key === 'number') {
    const list = Array.isArray(whole) ? whole : []
    return [...list.slice(0, key), inner ?? {}, ...list.slice(key + 1)]
  }
  const { [key]: _old, ...others } = (whole ?? {}) as Record<string, unknown>
  const next = inner === undefined ? others : { ...(whole as object), [key]: inner }
  return Object.keys(next).length === 0 ? undefined : next
}
