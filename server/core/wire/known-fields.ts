import { z } from 'zod'

/**
 * The fields that an object schema knows at this path, those of objects in it behind them (`vessel.litres`); none where
 * there is no object.
 */
export function knownFields(schema: z.ZodType, path: readonly PropertyKey[]): readonly string[] {
  const here = inner(schema)
  const [key, ...rest] = path
  if (here instanceof z.ZodArray) return knownFields(here.element as z.ZodType, rest)
  if (here instanceof z.ZodUnion) return here.options.flatMap((o) => knownFields(o as z.ZodType, path))
  if (here instanceof z.ZodRecord) return fieldsOfRecord(here, path)
  if (!(here instanceof z.ZodObject)) return []
  const shape = here.shape as Record<string, z.ZodType>
  if (key === undefined)
    return [...Object.keys(shape), ...Object.keys(shape).flatMap((name) => within(shape, name))]
  return Object.hasOwn(shape, key) ? knownFields(shape[String(key)]!, rest) : []
}

const within = (shape: Record<string, z.ZodType>, name: string): readonly string[] =>
  inner(shape[name]!) instanceof z.ZodObject
    ? knownFields(shape[name]!, []).map((field) => `${name}.${field}`)
    : []

/** A record whose keys are a list of names, such as the alarms of the settings. */
function fieldsOfRecord(
  { keyType, valueType }: z.ZodRecord,
  path: readonly PropertyKey[],
): readonly string[] {
  if (path.length > 0) return knownFields(valueType as z.ZodType, path.slice(1))
  return keyType instanceof z.ZodEnum ? keyType.options.map(String) : []
}

function inner(schema: z.ZodType): z.ZodType {
  const isWrapped =
    schema instanceof z.ZodOptional ||
    schema instanceof z.ZodDefault ||
    schema instanceof z.ZodNullable ||
    schema instanceof z.ZodReadonly
  return isWrapped ? inner(schema.unwrap() as z.ZodType) : schema
}
