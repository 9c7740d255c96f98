import type { z } from 'zod'
import { nearestName } from './nearest-name.ts'

type Issue = z.core.$ZodIssue

/**
 * One schema fault as a sentence for the person who wrote the file: the place, what was found and what is
 * allowed. `json`: the whole input, to look up what was found. `fieldsAt`: the field names allowed at a path.
 */
export function explainIssue(
  issue: Issue,
  json: unknown,
  fieldsAt: (path: readonly PropertyKey[]) => readonly string[],
): string {
  const place = placeOf(json, issue.path)
  const found = show(valueAt(json, issue.path))
  switch (issue.code) {
    case 'unrecognized_keys':
      return issue.keys.map((key) => unknownField(place, key, fieldsAt(issue.path))).join('; ')
    case 'invalid_type':
      return found === undefined
        ? `${place} is missing; it takes ${article(issue.expected)}`
        : `${place} is ${found}; allowed is ${article(issue.expected)}`
    case 'invalid_value':
      return `${place} is ${found ?? 'missing'}; allowed is ${issue.values.map(show).join(', ')}`
    case 'too_small':
      return `${place} is ${found}; allowed is ${sizeOf(issue.origin, 'at least', Number(issue.minimum))}`
    case 'too_big':
      return `${place} is ${found}; allowed is ${sizeOf(issue.origin, 'at most', Number(issue.maximum))}`
    case 'invalid_union':
      return unionFault(issue, place, found)
    default:
      return `${place} is ${found ?? 'missing'}; ${issue.message.charAt(0).toLowerCase()}${issue.message.slice(1)}`
  }
}

function unionFault(issue: Extract<Issue, { code: 'invalid_union' }>, place: string, found?: string): string {
  const options = (issue as { readonly options?: readonly unknown[] }).options ?? []
  const allowed =
    options.length > 0 ? `; allowed is ${options.map(show).join(', ')}` : '; it fits no allowed form'
  return `${place} is ${found ?? 'missing'}${allowed}`
}

function unknownField(place: string, key: string, known: readonly string[]): string {
  const nearest = nearestName(key, known)
  const where = place === 'the file' ? '' : `${place}: `
  return `${where}the field "${key}" is not known${nearest === undefined ? '' : `; the nearest known one is "${nearest}"`}`
}

/** `['stages', 2, 'windowC', 0]` → `stage "dye": windowC 1`, so that a person finds the place. */
function placeOf(json: unknown, path: readonly PropertyKey[]): string {
  if (path.length === 0) return 'the file'
  const parts: string[] = []
  path.forEach((key, i) => {
    if (typeof key !== 'number') return parts.push(String(key))
    const list = parts.pop() ?? 'item'
    return parts.push(itemName(list, valueAt(json, path.slice(0, i + 1)), key))
  })
  return parts.join(': ')
}

function itemName(list: string, item: unknown, index: number): string {
  const one = list.replace(/s$/, '')
  const name = valueAt(item, ['id']) ?? valueAt(item, ['name'])
  return typeof name === 'string' && name !== '' ? `${one} "${name}"` : `${one} ${index + 1}`
}

function valueAt(json: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>(
    (value, key) =>
      typeof value === 'object' && value !== null && Object.hasOwn(value, key)
        ? (value as Record<PropertyKey, unknown>)[key]
        : undefined,
    json,
  )
}

/** A found value in few characters; `undefined` for nothing. Numbers by `String`: JSON would print NaN as null. */
function show(value: unknown): string | undefined {
  if (value === undefined) return undefined
  const text = typeof value === 'number' ? String(value) : (JSON.stringify(value) ?? typeof value)
  return text.length > 60 ? `${text.slice(0, 57)}…` : text
}

const article = (expected: string): string => {
  const words = { array: 'list', int: 'whole number', record: 'object', tuple: 'list', nonoptional: 'value' }
  const word = words[expected as keyof typeof words] ?? expected
  return `${/^[aeio]/.test(word) ? 'an' : 'a'} ${word}`
}

function sizeOf(origin: string, bound: string, size: number): string {
  if (origin === 'string') return size === 1 ? 'text that is not empty' : `${bound} ${size} characters`
  if (origin === 'array') return `a list of ${bound} ${size}`
  return `${bound} ${size}`
}
