import { type FieldValue, type LineTemplate, matchLine, parseTemplate } from '#core/measure/line-template'
import { readNumber } from '#core/measure/read-number'
import type { Sample } from '#core/measure/reading'
import { sampleOf } from '#core/measure/sample-of'
import { type Signal, signalC } from '#core/measure/signal'
import { celsius } from '#core/measure/units'

/** How lines become samples. `names`: of the values in order, or by the names that a line gives. */
export interface LineReader {
  readonly source: string
  readonly template: LineTemplate
  readonly names: readonly string[] | Readonly<Record<string, string>> | undefined
  readonly signal: Signal | undefined
}

export type LineSamples =
  | { readonly ok: true; readonly samples: readonly Sample[] }
  | { readonly ok: false; readonly why: string }

/** The reader for settings that have been decoded before; throws when the template is not one. */
export function lineReader(
  source: string,
  line: string,
  names: LineReader['names'],
  signal: Signal | undefined,
): LineReader {
  const parsed = parseTemplate(line)
  if (!parsed.ok) throw new Error(`expected a line template, got ${JSON.stringify(line)}: ${parsed.why}`)
  return { source, template: parsed.template, names, signal }
}

/** Samples of one line, or why it is none. */
export function samplesOf(reader: LineReader, line: string, atMs: number): LineSamples {
  if (/[^\x20-\x7e\t°]/.test(line))
    return { ok: false, why: 'a line with bytes that are no text; is the baud rate right?' }
  const values = matchLine(reader.template, line)
  if (values === null)
    return { ok: false, why: `a line that is not of the set shape: "${line.slice(0, 60)}"` }
  const samples: Sample[] = []
  for (const [i, value] of values.entries()) {
    const probe = probeOf(reader, value, i, values.length)
    if (probe === null)
      return { ok: false, why: `a line with the name "${value.name?.slice(0, 40)}", which is no probe here` }
    samples.push(valueSample(reader, value, probe, atMs))
  }
  return { ok: true, samples }
}

/** Names that a line gives are mapped where the settings say so, else taken as they are when they can be names. */
function probeOf(reader: LineReader, value: FieldValue, index: number, count: number): string | null {
  const { names } = reader
  if (isList(names)) return names[index] ?? null
  if (value.name !== null) return namedProbe(names, value.name)
  return count === 1 ? reader.source : null
}

const isList = (names: LineReader['names']): names is readonly string[] => Array.isArray(names)

function namedProbe(names: Readonly<Record<string, string>> | undefined, name: string): string | null {
  if (names !== undefined) return Object.hasOwn(names, name) ? names[name]! : null
  return /^[A-Za-z0-9][A-Za-z0-9_.-]{0,63}$/.test(name) ? name : null
}

function valueSample(reader: LineReader, { field, text }: FieldValue, probe: string, atMs: number): Sample {
  const number = readNumber(text)
  if (number === null) return sampleOf(probe, atMs, NaN, text === '' ? 'empty' : text)
  if (field === 'tempF') return sampleOf(probe, atMs, celsius(number), `${text} °F`)
  if (field === 'tempC' || reader.signal === undefined) return sampleOf(probe, atMs, number, text)
  const value = signalC(reader.signal, number)
  if (!value.ok) return { kind: 'fault', probe, atMs, fault: value.fault, found: value.found.slice(0, 80) }
  return sampleOf(probe, atMs, value.rawC, text)
}
