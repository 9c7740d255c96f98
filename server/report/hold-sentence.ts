import type { HoldBins, StageOutcome } from '#core/plan/outcome'
import type { Format } from './format.ts'
import type { ReportWords } from './words/en.ts'

/** All seconds that a hold ran by the clock: its bins leave nothing out. */
export const clockS = (bins: HoldBins): number =>
  bins.inWindowS + bins.aboveWindowS + bins.belowWindowS + bins.aboveCeilingS + bins.unknownS + bins.goodsOutS

/** "60 min by the clock, 53 min in the window; 7 min below (lowest 76.2 °C); 0 s unknown", for the dyer. */
export function holdSentence(outcome: StageOutcome, f: Format, words: ReportWords): string {
  const { bins } = outcome
  if (bins === null) return words.neverHeld
  const parts = [
    bins.belowWindowS > 0 ? words.below(f.seconds(bins.belowWindowS), f.temp(outcome.minC)) : null,
    bins.aboveWindowS > 0 ? words.above(f.seconds(bins.aboveWindowS)) : null,
    bins.aboveCeilingS > 0 ? words.overCeiling(f.seconds(bins.aboveCeilingS), f.temp(outcome.maxC)) : null,
    bins.goodsOutS > 0 ? words.goodsOut(f.seconds(bins.goodsOutS)) : null,
    words.unknown(f.seconds(bins.unknownS)),
    outcome.doneMs === null ? null : words.reached(f.time(outcome.doneMs)),
  ].filter((part) => part !== null)
  return [words.heldClock(f.seconds(clockS(bins)), f.seconds(bins.inWindowS)), ...parts].join('; ')
}

/**
 * "held 53 min to 60 min", for a customer or buyer: what is sure and what the clock says, never the better one
 * alone. `null` when the hold never began.
 */
export function heldFor(outcome: StageOutcome, f: Format, words: ReportWords): string | null {
  if (outcome.bins === null) return null
  return words.heldFor(f.seconds(outcome.bins.inWindowS), f.seconds(clockS(outcome.bins)))
}
