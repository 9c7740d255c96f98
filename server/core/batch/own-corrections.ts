import type { RecordCorrection } from './corrections.ts'

/** Title and dry weight of the batch itself are corrected by a line that says from what to what. */
export function ownCorrections(entry: {
  readonly id: number
  readonly kind: string
  readonly body: unknown
  readonly who: string | null
  readonly notedMs: number
}): readonly RecordCorrection[] {
  if (entry.kind !== 'correction') return []
  const { from = {}, to = {} } = entry.body as Partial<Record<'from' | 'to', Record<string, unknown>>>
  return Object.keys(to)
    .filter((field) => from[field] !== to[field])
    .map((field) => ({
      lineId: entry.id,
      kind: 'batch',
      field,
      from: from[field] ?? null,
      to: to[field] ?? null,
      who: entry.who,
      notedMs: entry.notedMs,
    }))
}
