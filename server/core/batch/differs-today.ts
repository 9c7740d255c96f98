import type { BatchFacts } from './batch-facts.ts'
import { type Difference, type DifferenceName, rankDifferences } from './rank-differences.ts'

/** What is known before the heat is on; the rest only shows in the bath. */
const BEFORE_HEAT: ReadonlySet<DifferenceName> = new Set([
  'fibre',
  'goods',
  'dye-bath-use',
  'water-source',
  'water-ph',
  'water-hardness',
  'mordant-lot',
  'mordant-age',
  'pot',
  'burner',
  'lid',
  'probe',
  'probe-place',
  'probe-correction',
  'liquor-ratio',
  'amount',
  'lot',
])

export interface TodayAdvice {
  /** Values: then, today. */
  readonly differences: readonly Difference[]
  /** Enough differs that a small test piece first is worth its hour (own reckoning, no source). */
  readonly testPieceFirst: boolean
  /** What the old mean really was by today's correction of its probe, °C; `null` when nothing changed. */
  readonly trueMeanC: number | null
}

const TEST_PIECE_STEPS = 4

/** What differs today from the batch whose shade is to be repeated, said before the heat is on. */
export function differsToday(then: BatchFacts, today: BatchFacts): TodayAdvice {
  const differences = rankDifferences([then, today]).filter((d) => BEFORE_HEAT.has(d.what))
  const steps = differences.reduce((sum, d) => sum + d.steps, 0)
  const offC = then.probeCorrectionC ?? 0
  return {
    differences,
    testPieceFirst: steps >= TEST_PIECE_STEPS,
    trueMeanC: then.meanC === undefined || offC === 0 ? null : Math.round((then.meanC + offC) * 10) / 10,
  }
}
