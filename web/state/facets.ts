/** What batches can be told apart by, in the order in which the page offers it. */
export const FACET_KINDS = ['fibre', 'additive', 'lot', 'pot', 'probe', 'burner', 'owner'] as const
export type FacetKind = (typeof FACET_KINDS)[number]

export interface FacetCount {
  readonly kind: string
  readonly value: string
  readonly count: number
}
