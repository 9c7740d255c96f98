import { decodeSenml } from '#core/wire/senml'
import type { Sink } from './source.ts'

/**
 * Tells a SenML text to the sink: readings and, where a record has the unit `%EL` (RFC 8428 §12.1), the battery.
 * A live device speaks of now, so its readings are stamped at their arrival, kept in the order of its own times.
 */
export function tellSenml(
  text: string,
  atMs: number,
  sink: Sink,
  probeOf: (name: string) => string | null,
): void {
  const body = parseJson(text)
  if (body === undefined) return sink.refused(`a text that is not JSON: "${text.slice(0, 60)}"`)
  const pack = Array.isArray(body) ? body : [body]
  const { accepted, refused } = decodeSenml(pack.map(named), atMs)
  for (const { index, why } of refused) {
    if (!tellBattery(pack, index, sink, probeOf)) sink.refused(why)
  }
  const ordered = accepted.toSorted((a, b) => a.sample.atMs - b.sample.atMs)
  for (const { sample } of ordered) {
    const probe = probeOf(sample.probe)
    if (probe === null)
      sink.refused(`a SenML record named "${sample.probe.slice(0, 60)}", which is no probe here`)
    else sink.sample({ ...sample, probe, atMs: Math.min(sample.atMs, atMs) })
  }
}

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text) as unknown
  } catch {
    return undefined
  }
}

/** On its own wire a device needs no bridge in its name; one is put before it so that the record can be read. */
function named(record: unknown): unknown {
  if (typeof record !== 'object' || record === null) return record
  const { bn, n } = record as { bn?: unknown; n?: unknown }
  if (typeof bn === 'string' && bn !== '') return isQualified(bn) ? record : { ...record, bn: `here/${bn}` }
  if (typeof n === 'string' && n !== '')
    return isQualified(n) || bn !== undefined ? record : { ...record, n: `here/${n}` }
  return bn === undefined && n === undefined ? { ...record, n: 'here/-' } : record
}

const isQualified = (name: string): boolean => name.startsWith('urn:') || name.includes('/')

function tellBattery(
  pack: readonly unknown[],
  index: number,
  sink: Sink,
  probeOf: (name: string) => string | null,
): boolean {
  const record = pack[index] as { n?: unknown; u?: unknown; v?: unknown } | null
  if (record?.u !== '%EL' || typeof record.v !== 'number' || !(record.v >= 0 && record.v <= 100)) return false
  const probe = probeOf(typeof record.n === 'string' ? record.n : '-')
  if (probe !== null) sink.battery(probe, record.v)
  return probe !== null
}
