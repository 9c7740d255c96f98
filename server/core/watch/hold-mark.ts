import { holdDial, type Standing, steadyC } from '../bath/advise.ts'
import type { PotBelief } from '../bath/pot-belief.ts'
import { dialMark } from './dial-mark.ts'

/** A mark of the dial that holds a window, and where the bath then settles, °C, with its 90 % range. */
export interface HoldMark {
  readonly kind: 'mark'
  readonly mark: number
  readonly holdsC: readonly [low: number, high: number]
}

/** A hold dial less certain than this share of the whole dial, or a bath than so many degrees, is no advice. */
const TOO_WIDE_01 = 0.5
const TOO_WIDE_C = 40

/** A coarse mark will do where the bath settles this near to the middle, as a share of the window's width. */
const MIDDLE_01 = 0.3

/** `unreached`: no dial of this burner holds the window. `unsure`: too little is known to name one. */
export function holdMark(
  belief: PotBelief,
  [lowC, highC]: readonly [low: number, high: number],
  standing: Standing,
): HoldMark | { readonly kind: 'unreached' } | { readonly kind: 'unsure' } {
  const { dialMax } = belief.vessel.burner
  const targetC = (lowC + highC) / 2
  const hold = holdDial(belief, targetC, standing)
  if (hold === null) return { kind: 'unreached' }
  if (hold.high90 - hold.low90 > TOO_WIDE_01 * dialMax) return { kind: 'unsure' }
  const mark = dialMark(hold.value, dialMax, (dial) => {
    const settles = steadyC(belief, dial, standing).value
    return Math.abs(settles - targetC) <= MIDDLE_01 * (highC - lowC)
  })
  const { low90, high90 } = steadyC(belief, mark, standing)
  return high90 - low90 > TOO_WIDE_C ? { kind: 'unsure' } : { kind: 'mark', mark, holdsC: [low90, high90] }
}
