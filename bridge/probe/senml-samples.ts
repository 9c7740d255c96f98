import { decodeSenml } from '#core/wire/senml'
import type { Sink } from './source.ts'

/**
 * Tells a SenML text to the sink: readings and, where a record has the unit `%EL` (RFC 8428 §12.1), the battery.
 * A live device speaks of now, so its newest reading is stamped with its arrival and the others by their distance to it.
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
  const { accepted, refused } = decodeSenml(qualified(pack), atMs)
  for (const { index, why } of refused) {
    if (!tellBattery(pack, index, sink, probeOf)) sink.refused(why)
  }
  const newestMs = accepted.reduce((max, a) => Math.max(max, a.sample.atMs), -Infinity)
  for (const { sample } of accepted.toSorted((a, b) => a.sample.atMs - b.sample.atMs)) {
    const probe = probeOf(sample.probe)
    if (probe === null)
      sink.refused(`a SenML record named "${sample.probe.slice(0, 60)}", which is no probe here`)
    else sink.sample({ ...sample, probe, atMs: sample.atMs + (atMs - newestMs) })
  }
}

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text) as unknown
  } catch {
    return undefined
  }
}

/** On its own wire a device needs no bridge in its name, nor a name at all; both are put before what it says. */
function qualified(pack: readonly unknown[]): readonly unknown[] {
  const bases = pack.map((record) => (record as { bn?: unknown } | null)?.bn)
  const first = bases.find((bn) => typeof bn === 'string' && bn !== '') as string | undefined
  if (first === undefined) return pack.map((record) => named(record))
  return pack.map((record, i) =>
    typeof bases[i] === 'string' && !isQualified(bases[i])
      ? { ...(record as object), bn: `here/${bases[i]}` }
      : record,
  )
}

function named(record: unknown): unknown {
  if (typeof record !== 'object' || record === null || Array.isArray(record)) return record
  const { n } = record as { n?: unknown }
  if (n === undefined || n === '') return { ...record, n: `here/${NAMELESS}` }
  return typeof n === 'string' && !isQualified(n) ? { ...record, n: `here/${n}` } : record
}

/** Stands for a record without a name: the wire it came on says whose it is. */
export const NAMELESS = 'nameless'

const isQualified = (name: string): boolean => name.startsWith('urn:') || name.includes('/')

function tellBattery(
  pack: readonly unknown[],
  index: number,
  sink: Sink,
  probeOf: (name: string) => string | null,
): boolean {
  const record = pack[index] as { n?: unknown; u?: unknown; v?: unknown } | null
  if (record?.u !== '%EL' || typeof record.v !== 'number' || !(record.v >= 0 && record.v <= 100)) return false
  const probe = probeOf(typeof record.n === 'string' ? record.n : NAMELESS)
  if (probe !== null) sink.battery(probe, record.v)
  return probe !== null
}
