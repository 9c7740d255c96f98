import type { FibreKind } from './fibre.ts'

/** Something unusual in a plan: said while it is written, never in the way of saving it. */
export type PlanWarning = { readonly stageId: string } & (
  | {
      readonly kind: 'ceiling-over-fibre'
      readonly ceilingC: number
      readonly limitC: number
      readonly fibre: FibreKind
    }
  | {
      readonly kind: 'window-over-fibre'
      readonly topC: number
      readonly limitC: number
      readonly fibre: FibreKind
    }
  | { readonly kind: 'window-over-boil'; readonly bottomC: number; readonly boilC: number }
  | { readonly kind: 'top-over-boil'; readonly topC: number; readonly boilC: number }
  | { readonly kind: 'ceiling-over-boil'; readonly ceilingC: number; readonly boilC: number }
  | { readonly kind: 'no-ceiling' }
  | { readonly kind: 'ceiling-close'; readonly roomC: number }
  | { readonly kind: 'narrow-window'; readonly widthC: number }
  | {
      readonly kind: 'fast-heating'
      readonly rateCPerMin: number
      readonly usualCPerMin: number
      readonly fibre: FibreKind
    }
  | {
      readonly kind: 'fast-cooling'
      readonly rateCPerMin: number
      readonly usualCPerMin: number
      readonly fibre: FibreKind
    }
  | { readonly kind: 'short-hold'; readonly holdMin: number; readonly usualMin: number }
  | { readonly kind: 'long-hold'; readonly holdMin: number; readonly usualMin: number }
  | { readonly kind: 'out-before-done'; readonly outByMin: number; readonly holdMin: number }
  | { readonly kind: 'rare-turning'; readonly turnEveryMin: number; readonly usualMin: number }
  | {
      readonly kind: 'ph-unkind'
      readonly ph: number
      readonly usual: readonly [number, number]
      readonly fibre: FibreKind
    }
  | {
      readonly kind: 'odd-amount'
      readonly additive: string
      readonly percentWof: number
      readonly usual: number
    }
  | { readonly kind: 'odd-ratio'; readonly liquorRatio: number; readonly usual: readonly [number, number] }
  | { readonly kind: 'lifted-hot'; readonly fibre: FibreKind }
  | { readonly kind: 'cools-long'; readonly coolToC: number; readonly airC: number }
)
