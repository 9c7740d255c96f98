import { clockS, type HoldBins } from '../plan/outcome.ts'
import { wordsOf } from './words-of.ts'
import { differenceText, lengthText, minutesNumber, tempText } from './numbers.ts'
import type { Person } from './person.ts'

/** What the bins are held against, where it is known. */
export interface HoldExtremes {
  readonly minC: number | null
  readonly maxC: number | null
  readonly windowC: readonly [low: number, high: number]
}

/**
 * How long a hold really was: always the time by the clock, the time in the window, and the worst that
 * happened. Never "held for an hour" alone.
 */
export function holdSentence(bins: HoldBins, extremes: HoldExtremes, person: Person): string {
  const { minC, maxC, windowC } = extremes
  const [lowC, highC] = windowC
  const aboveS = bins.aboveWindowS + bins.aboveCeilingS
  return wordsOf(person.language).hold({
    clockMin: minutesNumber(clockS(bins)),
    requiredMin: minutesNumber(bins.requiredS),
    inMin: minutesNumber(bins.inWindowS),
    belowMin: minutesNumber(bins.belowWindowS),
    aboveMin: minutesNumber(aboveS),
    ceilingMin: minutesNumber(bins.aboveCeilingS),
    unknownMin: minutesNumber(bins.unknownS),
    outMin: minutesNumber(bins.goodsOutS),
    lowest:
      minC !== null && minC < lowC
        ? { temp: tempText(minC, person), under: differenceText(lowC - minC, person) }
        : null,
    highest:
      maxC !== null && maxC > highC
        ? { temp: tempText(maxC, person), over: differenceText(maxC - highC, person) }
        : null,
    overCeiling: bins.aboveCeilingS > 0 ? lengthText(bins.aboveCeilingS * 1000) : null,
  })
}
