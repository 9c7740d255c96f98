import type { Plan } from '#core/plan/plan'
import { ALUM_ON_WOOL, CUTCH_ON_LINEN, GOLD_ON_SILK, RED_ON_WOOL } from './plans.ts'
import { type DemoPot, HERON, OTTER, WREN } from './studio.ts'

/** A batch that was done before the demo starts. `endedAgoH`: hours before that moment. */
export interface EarlierBatch {
  readonly title: string
  readonly plan: Plan
  readonly pot: DemoPot
  readonly dryKg: number
  readonly endedAgoH: number
  readonly seed: number
  /** So many minutes into its last hold somebody topped the pot up from the cold tap. */
  readonly jugAtMin?: number
}

/** An evening with plain water that taught the dyer a burner. */
export interface EarlierEvening {
  readonly pot: DemoPot
  readonly endedAgoH: number
}

/** Between two batches of each pot: the first was dyed by feeling, the next by advice. */
export const EVENINGS: readonly EarlierEvening[] = [
  { pot: HERON, endedAgoH: 32 },
  { pot: WREN, endedAgoH: 50 },
  { pot: OTTER, endedAgoH: 56 },
]

const batch = (
  title: string,
  plan: Plan,
  pot: DemoPot,
  rest: Pick<EarlierBatch, 'dryKg' | 'endedAgoH' | 'jugAtMin'>,
): EarlierBatch => ({ title, plan, pot, ...rest, seed: Math.round(rest.endedAgoH * 10) })

/** The lot that was mordanted for the batch that is under way. */
export const MORDANTED = 'Marl, six skeins, mordanted'

/** Newest first; no two on one pot at the same time. */
export const EARLIER: readonly EarlierBatch[] = [
  batch('Marl, four skeins, brick rose', RED_ON_WOOL, HERON, { dryKg: 0.4, endedAgoH: 7, jugAtMin: 22 }),
  batch('Sedge, two scarves, weld gold', GOLD_ON_SILK, WREN, { dryKg: 0.13, endedAgoH: 26 }),
  batch('Fen, apron cloth, cutch brown', CUTCH_ON_LINEN, OTTER, { dryKg: 0.9, endedAgoH: 31 }),
  batch(MORDANTED, ALUM_ON_WOOL, HERON, { dryKg: 0.6, endedAgoH: 74 }),
  batch('Marl, ten skeins, brick rose', RED_ON_WOOL, OTTER, { dryKg: 1, endedAgoH: 100 }),
  batch('Marl, first test skein', RED_ON_WOOL, HERON, { dryKg: 0.1, endedAgoH: 150 }),
  batch('Sedge, ribbon, weld gold', GOLD_ON_SILK, WREN, { dryKg: 0.08, endedAgoH: 172 }),
]
