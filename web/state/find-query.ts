import { FACET_KINDS, type FacetKind } from './facets.ts'

/** What is looked for among the batches, as typed and chosen. Days as `2026-03-03`; empty: any. */
export interface FindDraft {
  readonly text: string
  readonly facets: Readonly<Partial<Record<FacetKind, string>>>
  readonly fromDay: string
  readonly toDay: string
}

export const EMPTY_FIND: FindDraft = { text: '', facets: {}, fromDay: '', toDay: '' }

/** `probe:heron` → what to look for; a facet that isn't known is left out. */
export function findOfFacet(facet: string): FindDraft {
  const colon = facet.indexOf(':')
  const kind = FACET_KINDS.find((known) => known === facet.slice(0, colon))
  return kind === undefined ? EMPTY_FIND : { ...EMPTY_FIND, facets: { [kind]: facet.slice(colon + 1) } }
}

/** The address that answers it. A day is the person's own: from its first moment to its last. */
export function findPath(draft: FindDraft, beforeId: number | null): string {
  const query = new URLSearchParams({ limit: String(PAGE) })
  if (draft.text.trim() !== '') query.set('text', draft.text.trim())
  for (const kind of FACET_KINDS) {
    const value = draft.facets[kind] ?? ''
    if (value !== '') query.append('facet', `${kind}:${value}`)
  }
  const from = midnight(draft.fromDay, 0)
  const to = midnight(draft.toDay, 1)
  if (from !== null) query.set('from', from)
  if (to !== null) query.set('to', to)
  if (beforeId !== null) query.set('before', String(beforeId))
  return `/api/find?${query}`
}

/** So many batches at a time. */
export const PAGE = 50

function midnight(day: string, daysLater: number): string | null {
  const [year, month, date] = day.split('-').map(Number)
  if (year === undefined || month === undefined || date === undefined || day.length !== 10) return null
  return new Date(year, month - 1, date + daysLater).toISOString()
}
