import { gramsFromOunces, litresFromUsGallons, ounces, usGallons } from '#core/batch/weight-units'
import { readNumber } from '#core/measure/read-number'
import { celsius, fahrenheit } from '#core/measure/units'
import type { DeviceSettings } from './device-settings.ts'
import { type FieldName, type FormKind, RECORD_FIELDS, type RecordField, isScore } from './record-fields.ts'

/** What stands in the form of a line, as typed; a field that is left out is empty. */
export type LineDraft = Readonly<Partial<Record<FieldName, string>>>
export type LineProblem = 'needs-number' | 'needs-text' | 'needs-all-three' | 'nothing'

export type LineFromDraft =
  | { readonly ok: true; readonly body: Readonly<Record<string, unknown>> }
  | { readonly ok: false; readonly problems: Readonly<Partial<Record<FieldName, LineProblem>>> }

type Units = Pick<DeviceSettings, 'unit' | 'weights'>
type Body = Readonly<Record<string, unknown>>

/**
 * What was typed → the body of a line in grams, litres and °C, or what stands in the way. Fields of `before` that
 * no form shows are kept, and those that nobody typed over stay to the last digit whatever the person's units, so that
 * a correction corrects only what was changed.
 */
export function bodyFromDraft(
  kind: FormKind,
  draft: LineDraft,
  units: Units,
  before: Body = {},
): LineFromDraft {
  const fields = RECORD_FIELDS[kind]
  const problems: Partial<Record<FieldName, LineProblem>> = {}
  const body: Record<string, unknown> = unshown(before, fields)
  const was = flatOf(before)
  const stood = draftOfBody(kind, before, units)
  for (const field of fields) {
    const typed = (draft[field.name] ?? '').trim()
    if (typed === '' && field.must === true) problems[field.name] = 'needs-text'
    if (typed === '') continue
    const value = typed === stood[field.name] ? was[field.name] : valueOf(field, typed, units)
    if (value === null) problems[field.name] = 'needs-number'
    else body[field.name] = value
  }
  const whole = fields.some((field) => field.sort === 'lab') ? gatherLab(body, problems) : body
  if (Object.keys(problems).length > 0) return { ok: false, problems }
  if (Object.keys(whole).length === 0) return { ok: false, problems: { [fields[0]!.name]: 'nothing' } }
  return { ok: true, body: whole }
}

function unshown(before: Body, fields: readonly RecordField[]): Record<string, unknown> {
  const shown = new Set<string>([...fields.map((field) => field.name), 'lab'])
  return Object.fromEntries(Object.entries(before).filter(([name]) => !shown.has(name)))
}

function gatherLab(
  body: Record<string, unknown>,
  problems: Partial<Record<FieldName, LineProblem>>,
): Record<string, unknown> {
  const { lightness, a, b, ...rest } = body
  const typed = [lightness, a, b].filter((value) => value !== undefined).length
  if (typed === 3) return { ...rest, lab: { lightness, a, b } }
  if (typed > 0) problems.lightness ??= 'needs-all-three'
  return rest
}

function valueOf({ name, sort }: RecordField, typed: string, units: Units): unknown {
  if (sort === 'word' || sort === 'text' || sort === 'stage') return typed
  if (sort === 'choice') return isScore(name) ? Number(typed) : typed
  if (sort === 'date') return dayMs(typed)
  const number = readNumber(typed.replace('−', '-'))
  if (number === null) return null
  return inside(sort, number, units)
}

function inside(sort: RecordField['sort'], value: number, { unit, weights }: Units): number | null {
  if (sort === 'temp') return rounded(unit === 'F' ? celsius(value) : value)
  if (sort === 'lab') return value
  if (value < 0) return null
  if (sort === 'weight') return rounded(weights === 'us' ? gramsFromOunces(value) : value)
  if (sort === 'volume') return rounded(weights === 'us' ? litresFromUsGallons(value) : value)
  return (sort === 'whole' || sort === 'batch') && !Number.isInteger(value) ? null : value
}

const rounded = (value: number): number => Math.round(value * 1e4) / 1e4

/** Noon UTC of a day `2026-03-03`: the same day in nearly every zone. */
const dayMs = (typed: string): number | null => {
  const atMs = Date.parse(`${typed}T12:00:00Z`)
  return Number.isNaN(atMs) ? null : atMs
}

/** The body of a line → what stands in its form, in the person's units. */
export function draftOfBody(kind: FormKind, body: Body, units: Units): LineDraft {
  const flat = flatOf(body)
  return Object.fromEntries(
    RECORD_FIELDS[kind].flatMap((field) => {
      const value = flat[field.name]
      return value === undefined ? [] : [[field.name, typedOf(field, value, units)]]
    }),
  )
}

/** The three numbers of a colour beside the other fields. */
export const flatOf = (body: Body): Body => ({
  ...body,
  ...(typeof body['lab'] === 'object' && body['lab'] !== null ? body['lab'] : {}),
})

function typedOf({ sort }: RecordField, value: unknown, { unit, weights }: Units): string {
  if (typeof value !== 'number') return String(value)
  if (sort === 'date') return new Date(value).toISOString().slice(0, 10)
  if (sort === 'weight') return short(weights === 'us' ? ounces(value) : value)
  if (sort === 'volume') return short(weights === 'us' ? usGallons(value) : value)
  return short(sort === 'temp' && unit === 'F' ? fahrenheit(value) : value)
}

const short = (value: number): string => String(Math.round(value * 1000) / 1000)
