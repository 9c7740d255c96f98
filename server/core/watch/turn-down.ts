import type { TurnDown } from './happening.ts'
import { holdMark } from './hold-mark.ts'
import { coastPeakC } from './learned-peak.ts'
import { isPowerKnown, learnedPot, tunedOnce } from './learned-pot.ts'
import type { PotView } from './pot-view.ts'
import type { WindowStage } from './stage-window.ts'

/** The mark to turn down to now, for somebody who needs a minute to the pot. */
export function turnDownOf(view: PotView, { windowC }: WindowStage): TurnDown {
  const { pot, dial } = view
  const { belief } = pot.setup
  const unknown = { fromDial: dial, toDial: null, peakC: null, isLearned: learnedPot(view) !== null }
  if (belief === undefined) return unknown
  const model = tunedOnce(belief)
  const hold = holdMark(belief, windowC, { lid: pot.lid ?? 'on', roomC: model.model.roomC })
  if (hold.kind !== 'mark' || (dial !== null && hold.mark >= dial)) return unknown
  const isLearned = unknown.isLearned && isPowerKnown(belief, hold.mark)
  return { fromDial: dial, toDial: hold.mark, peakC: coastPeakC(view, model, hold.mark), isLearned }
}
