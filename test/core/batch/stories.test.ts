import { expect, test } from 'vitest'
import type { BatchFacts } from '#core/batch/batch-facts'
import { differsToday } from '#core/batch/differs-today'
import { rankDifferences } from '#core/batch/rank-differences'
import { repeatShade } from '#core/batch/scale-plan'
import { roundToScale } from '#core/batch/scale-rounding'
import { type Trace, timeMeanC, traceFacts } from '#core/batch/trace-facts'
import type { Plan } from '#core/plan/plan'

// The studio Saltmarsh Lane Dyehouse and its two days are invented; the arithmetic is the trade's.

const MADDER: Plan = {
  title: 'Brick rose',
  fibre: 'wool',
  stages: [
    {
      id: 'dye',
      title: 'Root bath',
      kind: 'hold',
      windowC: [66, 70],
      ceilingC: 72,
      holdMin: 90,
      goods: true,
      liquorRatio: 25,
      additives: [
        { name: 'madder', percentWof: 40 },
        { name: 'chalk', percentWof: 1.5 },
      ],
    },
  ],
}
const MARCH: BatchFacts = {
  title: 'Brick rose, 12 March',
  fibre: 'wool',
  goods: 'Marl',
  dryWeightG: 1000,
  liquorRatio: 25,
  pot: 'Otter',
  probe: 'otter',
  water: { source: 'rain' },
  mordantAgeDays: 2,
  probeCorrectionC: -0.6,
  meanC: 68.3,
  peakC: 70.2,
  additives: [
    { name: 'madder', lot: 'R-11', plannedPercent: 40, usedPercent: 40 },
    { name: 'chalk', plannedPercent: 1.5, usedPercent: 1.5 },
  ],
  spotChecks: [],
}
const SIX_WEEKS_LATER: BatchFacts = {
  title: 'Brick rose again',
  fibre: 'wool',
  goods: 'Marl',
  dryWeightG: 650,
  liquorRatio: 25,
  pot: 'Heron',
  probe: 'heron',
  probeCorrectionC: 0,
  water: { source: 'tap', ph: 7.9, hardnessMgL: 180 },
  mordantAgeDays: 35,
  additives: [
    { name: 'madder', lot: 'R-14', plannedPercent: 40 },
    { name: 'chalk', plannedPercent: 1.5 },
  ],
  spotChecks: [],
}

test('the second lot: 650 g of a 1000 g shade need 260 g of madder, 9.75 g of chalk and 16.25 L', () => {
  const weighed = [
    { stageId: 'dye', additive: 'madder', weighedG: 400 },
    { stageId: 'dye', additive: 'chalk', weighedG: 15 },
  ]
  const { needs, plan } = repeatShade({ plan: MADDER, dryWeightG: 1000, weighed }, 650)
  expect(needs[0]?.additives.map((a) => a.needG)).toEqual([260, 9.75])
  expect(needs[0]?.litres).toBeCloseTo(16.25, 9)
  expect(roundToScale(9.75, 0.1).shownG).toBe(9.8)
  expect(plan).toEqual(MADDER)
})

test('a shade is repeated as it was weighed, not as it was planned', () => {
  const weighed = [{ stageId: 'dye', additive: 'madder', weighedG: 380 }]
  const { needs } = repeatShade({ plan: MADDER, dryWeightG: 1000, weighed }, 500)
  expect(needs[0]?.additives.map((a) => a.needG)).toEqual([190, 7.5])
  // 300 g on 907 g are 33.0761 %, kept to a hundredth of a per cent.
  const odd = repeatShade(
    { plan: MADDER, dryWeightG: 907, weighed: [{ ...weighed[0]!, weighedG: 300 }] },
    1000,
  )
  expect(odd.plan.stages[0]?.additives[0]).toEqual({ name: 'madder', percentWof: 33.08 })
  expect(() => repeatShade({ plan: MADDER, dryWeightG: 0, weighed: [] }, 500)).toThrow(RangeError)
  expect(repeatShade({ plan: MADDER, dryWeightG: 0.5, weighed: [] }, 1).needs).toHaveLength(1)
})

test('the second lot: dye lot, water, pot, correction and mordant age are listed before the heat is on', () => {
  const today = differsToday(MARCH, SIX_WEEKS_LATER)
  const named = today.differences.map((d) => (d.of === null ? d.what : `${d.what} ${d.of}`))
  expect([...named].sort()).toEqual(
    ['lot madder', 'mordant-age', 'pot', 'probe', 'probe-correction', 'water-source'].sort(),
  )
  expect(today.differences.find((d) => d.what === 'lot')?.values).toEqual(['R-11', 'R-14'])
  expect(today.testPieceFirst).toBe(true)
})

test('the second lot: the March bath really ran at a mean of 67.7', () => {
  expect(differsToday(MARCH, SIX_WEEKS_LATER).trueMeanC).toBe(67.7)
})

test('the same day again differs in nothing and needs no test piece', () => {
  expect(differsToday(MARCH, { ...MARCH, title: 'twin' })).toMatchObject({
    differences: [],
    testPieceFirst: false,
  })
})

test('four steps of difference ask for a test piece first, less does not (own reckoning)', () => {
  const lot = { ...MARCH, additives: [{ ...MARCH.additives[0]!, lot: 'R-14' }, MARCH.additives[1]!] }
  const steps = (today: BatchFacts) => {
    const { differences, testPieceFirst } = differsToday({ ...MARCH, burner: 'left', lid: 'glass' }, today)
    return [differences.reduce((sum, d) => sum + d.steps, 0), testPieceFirst]
  }
  expect(steps({ ...lot, burner: 'left', lid: 'steel' })).toEqual([3.5, false])
  expect(steps({ ...lot, burner: 'right', lid: 'glass' })).toEqual([4, true])
})

const APRIL: BatchFacts = {
  title: 'Weld on Fen, April, bright',
  fibre: 'linen',
  additives: [
    { name: 'weld', plannedPercent: 60, usedPercent: 60 },
    { name: 'chalk', plannedPercent: 1, usedPercent: 1 },
  ],
  meanC: 79,
  peakC: 79.8,
  heatUpMin: 51,
  heatUpCPerMin: 1.2,
  stayedInMin: 45,
  ceilingC: 82,
  spotChecks: [],
}
const JUNE: BatchFacts = {
  ...APRIL,
  title: 'Weld on Fen, June, dull',
  additives: [
    { name: 'weld', plannedPercent: 60, usedPercent: 60 },
    { name: 'chalk', plannedPercent: 1, usedPercent: 0 },
  ],
  heatUpMin: 22,
  heatUpCPerMin: 2.7,
  stayedInMin: 11 * 60,
  spotChecks: [
    { place: 'bottom', tempC: 86 },
    { place: 'top', tempC: 79.5 },
  ],
}

test('why it came out dull: no chalk, left in, over the ceiling by hand check, faster heat-up, in that order', () => {
  const ranked = rankDifferences([APRIL, JUNE])
  expect(ranked.map((d) => d.what)).toEqual([
    'amount',
    'stayed-in',
    'checked-over-ceiling',
    'heat-up-rate',
    'heat-up-time',
  ])
  expect(ranked[0]).toMatchObject({ of: 'chalk', values: [1, 0] })
  expect(ranked[1]?.values).toEqual([45, 660])
  expect(ranked[2]?.values).toEqual([null, 86])
  expect(ranked[3]?.values).toEqual([1.2, 2.7])
})

test('the order of the batches changes the columns, not the ranking', () => {
  const there = rankDifferences([APRIL, JUNE])
  const back = rankDifferences([JUNE, APRIL])
  expect(back.map((d) => d.what)).toEqual(there.map((d) => d.what))
  expect(back.map((d) => d.values.toReversed())).toEqual(there.map((d) => d.values))
})

test('what is not known of a batch is no difference', () => {
  const { heatUpMin: _, heatUpCPerMin: __, ...silent } = JUNE
  expect(rankDifferences([APRIL, silent]).map((d) => d.what)).not.toContain('heat-up-rate')
})

test('two to six batches can be compared, not one and not seven', () => {
  expect(() => rankDifferences([APRIL])).toThrow('found 1')
  expect(() => rankDifferences(Array.from({ length: 7 }, () => APRIL))).toThrow('found 7')
  expect(rankDifferences([APRIL, JUNE, APRIL, JUNE, APRIL, JUNE])[0]?.values).toHaveLength(6)
})

const minutes = (pairs: readonly (readonly [min: number, tempC: number])[]): Trace =>
  pairs.map(([min, tempC]) => [min * 60_000, tempC])

test('the heat-up is told by its minutes and its mean rate', () => {
  // 20 → 79.4 °C in 22 min: 2.7 °C/min; the June bath.
  const facts = traceFacts(
    minutes([...Array.from({ length: 23 }, (_, m) => [m, 20 + 2.7 * m] as const), [23, 79]]),
    76,
  )
  expect(facts.heatUpMin).toBe(21)
  expect(facts.heatUpCPerMin).toBeCloseTo(2.7, 9)
  expect(facts.peakC).toBeCloseTo(79.4, 9)
})

test('the mean counts by time, and a gap counts as nothing', () => {
  expect(
    timeMeanC(
      minutes([
        [0, 60],
        [1, 60],
        [1.5, 80],
      ]),
    ),
  ).toBeCloseTo((60 + 35) / 1.5, 9)
  expect(
    timeMeanC(
      minutes([
        [0, 60],
        [1, 60],
        [61, 80],
        [62, 80],
      ]),
    ),
  ).toBeCloseTo(70, 9)
  expect(timeMeanC(minutes([[0, 60]]))).toBe(60)
  expect(timeMeanC([])).toBeNull()
})

test('a bath that never reached its window has a peak and no heat-up', () => {
  expect(
    traceFacts(
      minutes([
        [0, 20],
        [1, 22],
      ]),
      60,
    ),
  ).toMatchObject({ heatUpMin: null, peakC: 22, meanC: null })
  expect(traceFacts([], 60)).toMatchObject({ peakC: null })
})
