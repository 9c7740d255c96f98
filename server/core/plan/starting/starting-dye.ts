import type { FibreKind } from '../fibre.ts'
import type { Additive } from '../plan.ts'

/**
 * A dye bath to start from. Every figure is common practice (`docs/trade-sources.md`) and meant to be replaced
 * by the dyer's own. `stay`: minutes from goods-in (the heat-up counts)
 * after which they must be out, or `overnight`: they cool in the bath.
 */
export interface StartingDye {
  readonly id: string
  readonly title: string
  readonly fibre: FibreKind
  readonly windowC: readonly [low: number, high: number]
  readonly ceilingC: number
  readonly holdMin: number
  readonly stay: 'overnight' | number
  readonly additives: readonly Additive[]
  readonly phRange?: readonly [low: number, high: number]
  readonly why: string
}

/** So much of it, in per cent of the dry weight. */
export const wof = (name: string, percentWof: number): Additive => ({ name, percentWof })
