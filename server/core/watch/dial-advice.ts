import type { HeatSense } from '../bath/heat-sense.ts'
import type { Lid } from '../bath/pot-model.ts'

/** How to set the dial, as advice. Temperatures °C, times Unix ms; dials as marks that a hand can find. */
export type DialAdvice =
  /** Heat up, then turn down. `heatDial`: `null` while the dial stands well. `holdsC`: where it then settles. */
  | {
      readonly kind: 'heat-up'
      readonly heatDial: number | null
      readonly holdDial: number
      readonly turnDownAtC: number
      readonly isNow: boolean
      readonly peakC: number
      readonly holdsC: readonly [low: number, high: number]
      readonly reachesMs: number | null
    }
  /** In the window. `settlesC`: where the noted dial leads; `null` when no dial is noted or the bath would boil.
   *  `leaves`: by which end it then leaves the window. */
  | {
      readonly kind: 'hold'
      readonly holdDial: number
      readonly holdsC: readonly [low: number, high: number]
      readonly isSet: boolean
      readonly settlesC: number | null
      readonly leaves: 'top' | 'bottom' | null
      readonly otherLid: { readonly lid: Lid; readonly dial: number } | null
    }
  /** In a cool-down, the lid as noted: what the other lid would do. */
  | { readonly kind: 'cool'; readonly coolToC: number; readonly otherLid: Lid; readonly otherMs: number }
  | { readonly kind: 'too-warm'; readonly holdDial: number; readonly holdsC: readonly [number, number] }
  /** Even at its top this burner does not bring the bath to the window. */
  | { readonly kind: 'out-of-reach'; readonly mostC: number; readonly lid: Lid }

export interface PotAdvice {
  readonly dial: DialAdvice | null
  /** What does not fit what is known of the pot. */
  readonly sense: HeatSense | null
  /** Nothing was learned of this burner yet. */
  readonly isGuess: boolean
}
