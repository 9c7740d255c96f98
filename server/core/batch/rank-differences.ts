import type { BatchFacts } from './batch-facts.ts'

/** One thing that differs. `values`: one a batch, in their order, `null` where it isn't known. */
export interface Difference {
  readonly what: DifferenceName
  /** The additive, for those that are of one. */
  readonly of: string | null
  readonly values: readonly (string | number | null)[]
  /**
   * How many noticeable steps apart: what a dyer could tell by eye is about one step. Own reckoning, no source; it
   * orders the list and proves nothing.
   */
  readonly steps: number
}

/**
 * Everything that differs between two to six batches, the most striking first. It declares no cause: candidates are
 * shown, the dyer concludes. Throws RangeError for another number of batches.
 */
export function rankDifferences(batches: readonly BatchFacts[]): readonly Difference[] {
  if (batches.length < 2 || batches.length > 6)
    throw new RangeError(`two to six batches can be compared, found ${batches.length}`)
  const found = [
    ...FACTS.map((fact) => compare(fact, batches)),
    ...additiveNames(batches).flatMap((name) => compareAdditive(name, batches)),
    overCeiling(batches),
  ]
  return found.filter((d): d is Difference => d !== null).sort((a, b) => b.steps - a.steps)
}

type Value = string | number | undefined

interface Fact {
  readonly what: DifferenceName
  readonly of: (batch: BatchFacts) => Value
  /** Steps between the smallest and the greatest number, or for any two words. */
  readonly steps: (low: number, high: number) => number
}

/** A plain difference: one step each `step`. */
const each = (step: number) => (low: number, high: number) => (high - low) / step
/** A ratio: one step each half a doubling; of 0 as of half a unit. */
const halfDoublings = (low: number, high: number) => 2 * Math.log2(Math.max(high, 0.5) / Math.max(low, 0.5))
/** A word that changed weighs this many steps. */
const word = (steps: number) => () => steps

const FACTS: readonly Fact[] = [
  { what: 'fibre', of: (b) => b.fibre, steps: word(8) },
  { what: 'goods', of: (b) => b.goods, steps: word(3) },
  { what: 'dye-bath-use', of: (b) => b.dyeBathUse, steps: each(0.2) },
  { what: 'stayed-in', of: (b) => b.stayedInMin, steps: halfDoublings },
  { what: 'ph', of: (b) => b.ph, steps: each(0.5) },
  { what: 'water-source', of: (b) => b.water?.source, steps: word(2.5) },
  { what: 'water-ph', of: (b) => b.water?.ph, steps: each(0.5) },
  { what: 'water-hardness', of: (b) => b.water?.hardnessMgL, steps: each(40) },
  { what: 'mordant-lot', of: (b) => b.mordantLot, steps: word(2) },
  { what: 'mordant-age', of: (b) => b.mordantAgeDays, steps: each(14) },
  { what: 'mean', of: (b) => corrected(b.meanC, b), steps: each(1) },
  { what: 'peak', of: (b) => corrected(b.peakC, b), steps: each(1.5) },
  { what: 'above-window', of: (b) => b.aboveWindowMin, steps: each(5) },
  { what: 'below-window', of: (b) => b.belowWindowMin, steps: each(10) },
  { what: 'in-window', of: (b) => b.inWindowMin, steps: each(15) },
  { what: 'heat-up-rate', of: (b) => b.heatUpCPerMin, steps: each(0.5) },
  { what: 'heat-up-time', of: (b) => b.heatUpMin, steps: each(20) },
  { what: 'pot', of: (b) => b.pot, steps: word(1.5) },
  { what: 'burner', of: (b) => b.burner, steps: word(1) },
  { what: 'lid', of: (b) => b.lid, steps: word(0.5) },
  { what: 'probe', of: (b) => b.probe, steps: word(0.8) },
  { what: 'probe-place', of: (b) => b.probePlace, steps: word(2) },
  { what: 'probe-correction', of: (b) => b.probeCorrectionC, steps: each(0.5) },
  { what: 'liquor-ratio', of: (b) => b.liquorRatio, steps: halfDoublings },
  { what: 'dry-weight', of: (b) => b.dryWeightG, steps: (low, high) => halfDoublings(low, high) / 4 },
]

const corrected = (tempC: number | undefined, batch: BatchFacts): number | undefined =>
  tempC === undefined ? undefined : Math.round((tempC + (batch.probeCorrectionC ?? 0)) * 10) / 10

function compare(fact: Fact, batches: readonly BatchFacts[]): Difference | null {
  return differenceOf(fact.what, null, batches.map(fact.of), fact.steps)
}

/** Differs when at least two of the known values do; an unknown one isn't a difference. */
function differenceOf(
  what: DifferenceName,
  of: string | null,
  values: readonly Value[],
  stepsOf: (low: number, high: number) => number,
): Difference | null {
  const known = values.filter((value): value is string | number => value !== undefined)
  if (new Set(known).size < 2) return null
  const numbers = known.filter((value) => typeof value === 'number')
  const steps =
    numbers.length === known.length ? stepsOf(Math.min(...numbers), Math.max(...numbers)) : stepsOf(0, 0)
  return steps < LEAST_STEPS ? null : { what, of, values: values.map((value) => value ?? null), steps }
}

/** Below this a difference is weighing noise. */
const LEAST_STEPS = 0.2

const additiveNames = (batches: readonly BatchFacts[]): readonly string[] => [
  ...new Set(batches.flatMap((batch) => batch.additives.map((additive) => additive.name))),
]

/** An additive that one batch had and another did without weighs most: nothing else is a yes or no. */
const LEFT_OUT_STEPS = 10

const amountSteps = (low: number, high: number): number =>
  low === 0 ? LEFT_OUT_STEPS : 4 * Math.log2(high / low)

function compareAdditive(name: string, batches: readonly BatchFacts[]): readonly (Difference | null)[] {
  const facts = batches.map((batch) => batch.additives.find((additive) => additive.name === name))
  const amounts = facts.map(
    (fact) => fact?.usedPercent ?? fact?.plannedPercent ?? (fact === undefined ? 0 : undefined),
  )
  const lots = facts.map((fact) => fact?.lot)
  return [differenceOf('amount', name, amounts, amountSteps), differenceOf('lot', name, lots, word(3))]
}

/** A hand check over the ceiling is evidence that the probe didn't see: 0.7 °C over is a step. */
function overCeiling(batches: readonly BatchFacts[]): Difference | null {
  const hottest = batches.map((batch) => {
    const temps = batch.spotChecks.map((check) => check.tempC)
    return temps.length === 0 ? undefined : Math.max(...temps)
  })
  const over = batches.map((batch, i) =>
    Math.max(0, (hottest[i] ?? -Infinity) - (batch.ceilingC ?? Infinity)),
  )
  const mostC = Math.max(...over)
  if (mostC <= 0) return null
  return {
    what: 'checked-over-ceiling',
    of: null,
    values: hottest.map((value) => value ?? null),
    steps: mostC / 0.7,
  }
}

const DIFFERENCE_NAMES = [
  'fibre',
  'goods',
  'dye-bath-use',
  'stayed-in',
  'ph',
  'water-source',
  'water-ph',
  'water-hardness',
  'mordant-lot',
  'mordant-age',
  'mean',
  'peak',
  'above-window',
  'below-window',
  'in-window',
  'heat-up-rate',
  'heat-up-time',
  'pot',
  'burner',
  'lid',
  'probe',
  'probe-place',
  'probe-correction',
  'liquor-ratio',
  'dry-weight',
  'amount',
  'lot',
  'checked-over-ceiling',
] as const
export type DifferenceName = (typeof DIFFERENCE_NAMES)[number]
