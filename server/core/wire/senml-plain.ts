import type { SenmlRecord } from './senml-record.ts'

/**
 * Whether a record has only fields that we know, each of its kind: what a bridge sends, hundreds to a pack. Of all
 * others the schema decides; it takes these, too, but ten times as long.
 */
export function isPlainRecord(raw: unknown): raw is SenmlRecord {
  if (typeof raw !== 'object' || raw === null || Array.isArray(raw)) return false
  const fields = raw as Readonly<Record<string, unknown>>
  for (const name in fields) if (!isPlainField(name, fields[name])) return false
  return true
}

function isPlainField(name: string, value: unknown): boolean {
  switch (name) {
    case 'bn':
    case 'bu':
    case 'n':
    case 'u':
    case 'vs':
      return typeof value === 'string'
    case 'bt':
    case 'bv':
    case 'bver':
    case 't':
    case 'v':
      return Number.isFinite(value)
    case 'boot':
      return typeof value === 'string' && value.length >= 1 && value.length <= 64
    case 'seq':
      return Number.isSafeInteger(value) && (value as number) >= 0
    default:
      return false
  }
}
