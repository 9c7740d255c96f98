import type { BatchSummary } from '#core/wire/records'
import { flatOf } from '../../state/record-draft.ts'
import { type FieldName, type FormKind, RECORD_FIELDS, type RecordField } from '../../state/record-fields.ts'
import type { Catalogue } from '../words/catalogue.ts'
import type { Format } from '../words/format.ts'

/** What names stand for in a record: other batches, and the stages of this one. */
export interface RecordNames {
  readonly batches: readonly BatchSummary[]
  readonly stages: readonly { readonly id: string; readonly title: string }[]
}

type Body = Readonly<Record<string, unknown>>

/** The fields of a line, each with its value as this person reads it. */
export function lineParts(
  kind: FormKind,
  body: Body,
  names: RecordNames,
  w: Catalogue,
  f: Format,
): readonly (readonly [field: string, value: string])[] {
  const flat = flatOf(body)
  return RECORD_FIELDS[kind].flatMap((field) => {
    const value = flat[field.name]
    return value === undefined
      ? []
      : [[w.record.fields[field.name], valueText(field, value, names, w, f)] as const]
  })
}

function valueText(
  { sort }: Pick<RecordField, 'sort'>,
  value: unknown,
  names: RecordNames,
  w: Catalogue,
  f: Format,
): string {
  if (sort === 'stage') return names.stages.find((s) => s.id === value)?.title ?? String(value)
  if (sort === 'choice') return choiceWord(String(value), w)
  if (typeof value !== 'number') return String(value)
  switch (sort) {
    case 'weight':
      return f.weight(value)
    case 'volume':
      return f.volume(value)
    case 'temp':
      return f.temp(value)
    case 'date':
      return f.date(value)
    case 'batch':
      return w.record.batchNo(value, names.batches.find((b) => b.id === value)?.title)
    case 'number':
    case 'whole':
    case 'lab':
    case 'word':
    case 'text':
      return f.amount(value, 2)
    default:
      return sort satisfies never
  }
}

/** What was chosen, in words; a value that has none stands for itself. */
export function choiceWord(value: string, w: Catalogue): string {
  const choices: Readonly<Record<string, string>> = w.record.choices
  return choices[value] ?? value
}

/** A field that a correction names, as a person calls it. */
export function fieldWord(field: string, w: Catalogue): string {
  const { fields, moreFields } = w.record
  if (field in fields) return fields[field as FieldName]
  return field in moreFields ? moreFields[field as keyof typeof moreFields] : field
}

const SORTS = new Map(Object.values(RECORD_FIELDS).flatMap((fields) => fields.map((f) => [f.name, f.sort])))
const MORE_SORTS = { dryWeightG: 'weight', weighedG: 'weight', plannedG: 'weight' } as const

/** What stood or stands in a corrected field. */
export function correctedText(
  field: string,
  value: unknown,
  names: RecordNames,
  w: Catalogue,
  f: Format,
): string {
  if (value === null || value === undefined) return w.record.notSaid
  if (field === 'atMs') return f.day(Number(value))
  if (typeof value === 'object')
    return Object.values(value)
      .map((part) => f.amount(Number(part)))
      .join(' / ')
  const sort =
    field in MORE_SORTS ? MORE_SORTS[field as keyof typeof MORE_SORTS] : SORTS.get(field as FieldName)
  return valueText({ sort: sort ?? 'choice' }, value, names, w, f)
}
