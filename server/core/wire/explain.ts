import { z } from 'zod'
import { foundText } from '../measure/possible.ts'
import { unknownWord } from './nearest.ts'

/**
 * The first thing wrong with `input` under `schema`, as one sentence for the person who wrote it: which field,
 * what was found, what is allowed. `where`: the name of what was read, such as `probes[2]` or `holdfast.json`.
 */
export function explainFirst(error: z.ZodError, schema: z.ZodType, input: unknown, where: string): string {
  const issue = error.issues[0]!
  const field = fieldName(where, issue.path)
  if (issue.code === 'unrecognized_keys') {
    return `${field}: ${unknownWord(issue.keys[0]!, knownKeys(schema, issue.path))}`
  }
  const value = valueAt(input, issue.path)
  const found = value === undefined ? 'nothing' : foundText(JSON.stringify(value))
  return `${field}: found ${found}, allowed is ${allowed(issue)}`
}

function fieldName(where: string, path: readonly PropertyKey[]): string {
  return path.reduce<string>(
    (name, key) =>
      typeof key === 'number' ? `${name}[${key}]` : `${name}${name === '' ? '' : '.'}${String(key)}`,
    where,
  )
}

const valueAt = (input: unknown, path: readonly PropertyKey[]): unknown =>
  path.reduce<unknown>((value, key) => (value as Record<PropertyKey, unknown> | undefined)?.[key], input)

/** The keys that an object schema at this path knows. */
export function knownKeys(schema: z.ZodType, path: readonly PropertyKey[]): readonly string[] {
  const here = inner(schema)
  const [key, ...rest] = path
  if (here instanceof z.ZodArray) return knownKeys(here.element as z.ZodType, key === undefined ? [] : rest)
  if (here instanceof z.ZodUnion) return here.options.flatMap((o) => knownKeys(o as z.ZodType, path))
  if (!(here instanceof z.ZodObject)) return []
  const shape = here.shape as Record<string, z.ZodType>
  if (key === undefined) return Object.keys(shape)
  const next = shape[String(key)]
  return next === undefined ? [] : knownKeys(next, rest)
}

function inner(schema: z.ZodType): z.ZodType {
  if (schema instanceof z.ZodOptional || schema instanceof z.ZodDefault || schema instanceof z.ZodNullable) {
    return inner(schema.unwrap() as z.ZodType)
  }
  return schema
}

/** What an issue of the schema allows, in words. */
function allowed(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case 'invalid_type':
      return TYPE_WORDS[issue.expected] ?? `a ${issue.expected}`
    case 'invalid_value':
      return issue.values.map((v) => JSON.stringify(v)).join(' or ')
    case 'too_small':
      return `${issue.inclusive === false ? 'more than' : 'at least'} ${issue.minimum}${lengthWord(issue.origin)}`
    case 'too_big':
      return `${issue.inclusive === false ? 'less than' : 'at most'} ${issue.maximum}${lengthWord(issue.origin)}`
    default:
      return issue.message
  }
}

const TYPE_WORDS: Readonly<Record<string, string>> = {
  number: 'a number',
  int: 'a whole number',
  string: 'a text',
  boolean: 'true or false',
  object: 'an object',
  array: 'a list',
}

const lengthWord = (origin: string): string =>
  origin === 'string' ? ' characters' : origin === 'array' ? ' entries' : ''
