/**
 * A line of text with named fields, as the settings give it: `T={tempC}`, `{name};{tempF};{skip}`. Matching is
 * left to right and linear: no pattern that a person can write makes it run away.
 */
export interface LineTemplate {
  readonly parts: readonly TemplatePart[]
}

export type TemplatePart =
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'field'; readonly field: FieldName }

/** `raw`: a number that the probe's `signal` setting turns into °C: ohms, millivolts, milliamperes, counts. */
const FIELD_NAMES = ['tempC', 'tempF', 'raw', 'name', 'skip'] as const
export type FieldName = (typeof FIELD_NAMES)[number]

export type ParsedTemplate =
  | { readonly ok: true; readonly template: LineTemplate }
  | { readonly ok: false; readonly why: string }

/** Reads a template; a wrong one is answered with one sentence. */
export function parseTemplate(text: string): ParsedTemplate {
  const parts: TemplatePart[] = []
  for (const piece of text.split(/(\{[^{}]*\})/).filter((p) => p !== '')) {
    const part = partOf(piece)
    if (typeof part === 'string') return { ok: false, why: part }
    parts.push(part)
  }
  const why = templateProblem(parts)
  return why === null ? { ok: true, template: { parts } } : { ok: false, why }
}

function partOf(piece: string): TemplatePart | string {
  if (!piece.startsWith('{') || !piece.endsWith('}')) {
    if (/[{}]/.test(piece)) return 'a brace is not closed; a field is written like {tempC}'
    return { kind: 'text', text: piece }
  }
  const field = FIELD_NAMES.find((name) => name === piece.slice(1, -1))
  if (field === undefined) return `field ${piece} is not known; allowed are ${allFields}`
  return { kind: 'field', field }
}

const allFields = FIELD_NAMES.map((name) => `{${name}}`).join(', ')

function templateProblem(parts: readonly TemplatePart[]): string | null {
  if (!parts.some((p) => p.kind === 'field' && isValueField(p.field))) {
    return 'no field for the temperature; it needs {tempC}, {tempF} or {raw}'
  }
  const twoRunning = parts.some((p, i) => p.kind === 'field' && parts[i + 1]?.kind === 'field')
  return twoRunning ? 'two fields follow each other with nothing between them' : null
}

export const isValueField = (field: FieldName): boolean =>
  field === 'tempC' || field === 'tempF' || field === 'raw'

/** One value found in a line; `name` as the line gave it just before, if it gave one. `text`: as it stood there. */
export interface FieldValue {
  readonly field: FieldName
  readonly text: string
  readonly name: string | null
}

/**
 * The values in a line, or `null` when the line is not of this shape. Blanks around the line and around each
 * field don't matter; a field ends where the text after it first appears.
 */
export function matchLine(template: LineTemplate, line: string): readonly FieldValue[] | null {
  const found = captures(template.parts, line.trim())
  if (found === null) return null
  let name: string | null = null
  const values: FieldValue[] = []
  for (const { field, text } of found) {
    if (field === 'name') name = text
    else if (isValueField(field)) values.push({ field, text, name })
  }
  return values
}

function captures(
  parts: readonly TemplatePart[],
  line: string,
): readonly { readonly field: FieldName; readonly text: string }[] | null {
  const found: { field: FieldName; text: string }[] = []
  let at = 0
  for (const [i, part] of parts.entries()) {
    if (part.kind === 'text') {
      at = afterText(part.text, line, at, i === parts.length - 1)
      if (at < 0) return null
      continue
    }
    const end = fieldEnd(parts[i + 1], line, at)
    if (end < 0) return null
    found.push({ field: part.field, text: line.slice(at, end).trim() })
    at = end
  }
  return line.slice(at).trim() === '' ? found : null
}

/** Where the line goes on after this text, or −1. The line was trimmed, so a template's outer blanks may be gone. */
function afterText(text: string, line: string, at: number, isLast: boolean): number {
  const wanted = trimEnds(text, at === 0, isLast)
  return line.startsWith(wanted, at) ? at + wanted.length : -1
}

function fieldEnd(next: TemplatePart | undefined, line: string, at: number): number {
  if (next === undefined) return line.length
  const text = next.kind === 'text' ? next.text : ''
  const whole = line.indexOf(text, at)
  if (whole >= 0) return whole
  // The blank that ends a template was trimmed off the line.
  const trimmed = text.trimEnd()
  return line.length >= trimmed.length + at && line.endsWith(trimmed) ? line.length - trimmed.length : -1
}

const trimEnds = (text: string, isFirst: boolean, isLast: boolean): string => {
  const started = isFirst ? text.trimStart() : text
  return isLast ? started.trimEnd() : started
}
