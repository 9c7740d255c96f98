import { holdSentence } from '#core/words/hold-sentence'
import { clockS, type StageOutcome } from '#core/plan/outcome'
import type { HoldStage } from '#core/plan/plan'
import type { Format } from './format.ts'
import type { PrintFor } from './print-for.ts'
import type { ReportWords } from './words/en.ts'

/** What the hold came to, for the dyer: by the clock, in the window, and the worst that happened. */
export function holdText(
  outcome: StageOutcome,
  stage: HoldStage,
  reader: PrintFor,
  words: ReportWords,
): string {
  if (outcome.bins === null) return words.neverHeld
  const { minC, maxC } = outcome
  return holdSentence(outcome.bins, { minC, maxC, windowC: stage.windowC }, reader)
}

/**
 * "held 53 min to 60 min", for a customer or buyer: what is sure and what the clock says, never the better one
 * alone. `null` when the hold never began.
 */
export function heldFor(outcome: StageOutcome, f: Format, words: ReportWords): string | null {
  if (outcome.bins === null) return null
  return words.heldFor(f.seconds(outcome.bins.inWindowS), f.seconds(clockS(outcome.bins)))
}
