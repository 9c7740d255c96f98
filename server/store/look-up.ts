import type { Lab } from '#core/batch/colour'
import type { BatchSummary } from '#core/wire/records'

/** What batches can be told apart by. `lot`: of a dye or mordant, as weighed; `additive`: what the plan puts in. */
export const FACET_KINDS = ['fibre', 'additive', 'lot', 'pot', 'probe', 'burner', 'owner'] as const
export type FacetKind = (typeof FACET_KINDS)[number]

export interface Facet {
  readonly kind: FacetKind
  readonly value: string
}

export interface FacetCount extends Facet {
  readonly count: number
}

/** A page of what was found, newest first. All that is given must hold at once. */
export interface FindQuery {
  /** Words, in any order, each from its beginning; case and accents don't matter. */
  readonly text?: string
  readonly facets: readonly Facet[]
  readonly fromMs?: number
  readonly toMs?: number
  readonly beforeId?: number
  readonly limit: number
}

/** A result's colour, for a shade card. `percentWof`: of the additive asked for, when the plan gives it so. */
export interface Shade {
  readonly batchId: number
  readonly title: string
  readonly fibre: string | null
  readonly lab: Lab
  readonly percentWof: number | null
}

/** Looking up among all batches. What is asked reads what it shows, however many batches there are. */
export interface LookUpStore {
  find(query: FindQuery): Promise<readonly BatchSummary[]>
  /** Every value with the number of its batches, the most frequent first; at most `limit` a kind. */
  facets(limit: number): Promise<readonly FacetCount[]>
  /** Colours of results, newest first; with an additive only of batches that had it. */
  shades(query: { readonly additive?: string; readonly limit: number }): Promise<readonly Shade[]>
}
