import { expect, test } from 'vitest'
import { correctionSince } from '#core/batch/correction-since'
import { currentRecord } from '#core/batch/current-record'
import { dyeBathOf } from '#core/batch/dye-bath'
import { type RanBatch, factsOfBatch } from '#core/batch/facts-of-batch'
import type { RecordLine } from '#core/batch/record-line'
import type { Plan } from '#core/plan/plan'

const T0 = Date.UTC(2026, 5, 3, 9)
const min = (m: number) => T0 + m * 60_000
const hold = { kind: 'hold', goods: true, holdMin: 45 } as const

const PLAN: Plan = {
  title: 'Weld on Fen',
  fibre: 'linen',
  stages: [
    {
      ...hold,
      id: 'mordant',
      title: 'Alum',
      windowC: [49, 59],
      additives: [{ name: 'alum', percentWof: 15 }],
    },
    {
      ...hold,
      id: 'dye',
      title: 'Weld bath',
      windowC: [70, 79],
      ceilingC: 82,
      liquorRatio: 30,
      additives: [
        { name: 'weld', percentWof: 60 },
        { name: 'chalk', percentWof: 1 },
      ],
    },
    { id: 'cool', title: 'Cool', kind: 'cool', coolToC: 38, additives: [] },
  ],
}
const frame = { atMs: T0, notedMs: T0, who: null, replaces: null }
const LINES: readonly RecordLine[] = [
  {
    ...frame,
    id: 1,
    kind: 'weighing',
    body: { stageId: 'dye', additive: 'weld', weighedG: 480, lot: 'W-3' },
  },
  { ...frame, id: 2, kind: 'weighing', body: { stageId: 'dye', additive: 'chalk', weighedG: 0 } },
  { ...frame, id: 3, kind: 'check', body: { place: 'bottom', tempC: 86 } },
]
const JUNE: RanBatch = {
  title: 'Weld on Fen, June',
  plan: PLAN,
  dryWeightG: 800,
  record: currentRecord(LINES),
  events: [],
  correctionC: 0,
  runs: [
    {
      stageId: 'mordant',
      pot: 'Heron',
      probe: 'p',
      startedMs: min(-3 * 1440 - 120),
      endedMs: min(-3 * 1440),
      outcome: null,
      trace: [],
    },
    {
      stageId: 'dye',
      pot: 'Heron',
      probe: 'p',
      startedMs: T0,
      endedMs: min(80),
      outcome: null,
      trace: Array.from({ length: 81 }, (_, m) => [min(m), Math.min(79, 20 + 2.7 * m)] as const),
    },
    {
      stageId: 'cool',
      pot: 'Heron',
      probe: 'p',
      startedMs: min(80),
      endedMs: min(660),
      outcome: null,
      trace: [],
    },
  ],
}

test('the dye bath is the last hold with goods that has a dye in it, not the mordant', () => {
  expect(dyeBathOf(PLAN, JUNE.runs)?.stage.id).toBe('dye')
  expect(dyeBathOf(PLAN, JUNE.runs.slice(0, 1))?.stage.id).toBe('mordant')
  expect(dyeBathOf(PLAN, [])).toBeNull()
})

test('facts come from record, plan and trace: used against planned, heat-up, age of the mordant, hand checks', () => {
  const facts = factsOfBatch(JUNE)
  expect(facts.additives).toEqual([
    { name: 'alum', plannedPercent: 15 },
    { name: 'weld', lot: 'W-3', plannedPercent: 60, usedPercent: 60 },
    { name: 'chalk', plannedPercent: 1, usedPercent: 0 },
  ])
  expect(facts.heatUpCPerMin).toBeCloseTo(2.7, 9)
  expect(facts).toMatchObject({ pot: 'Heron', ceilingC: 82, mordantAgeDays: 3, peakC: 79, liquorRatio: 30 })
  expect(facts.spotChecks).toEqual([{ place: 'bottom', tempC: 86 }])
  expect(facts).not.toHaveProperty('burner')
})

test('how long the goods stayed in: noted, else until the cool-down after the bath ended', () => {
  expect(factsOfBatch(JUNE).stayedInMin).toBe(660)
  const noted = [
    { atMs: min(30), event: { kind: 'goods-in' } },
    { atMs: min(75), event: { kind: 'goods-out' } },
  ] as const
  expect(factsOfBatch({ ...JUNE, events: noted }).stayedInMin).toBe(45)
})

test('the bins of the hold count as minutes, over the ceiling as over the window', () => {
  const bins = {
    requiredS: 2700,
    inWindowS: 2400,
    aboveWindowS: 300,
    belowWindowS: 660,
    aboveCeilingS: 120,
    unknownS: 0,
    goodsOutS: 0,
  }
  const outcome = { id: 'dye', startedMs: T0, endedMs: min(80), bins, minC: 70, maxC: 79, doneMs: null }
  const runs = JUNE.runs.map((run) => (run.stageId === 'dye' ? { ...run, outcome } : run))
  expect(factsOfBatch({ ...JUNE, runs })).toMatchObject({
    inWindowMin: 40,
    aboveWindowMin: 7,
    belowWindowMin: 11,
  })
})

test('a batch that has not run has no facts of a bath', () => {
  const facts = factsOfBatch({ ...JUNE, runs: [] })
  expect(facts).not.toHaveProperty('pot')
  expect(facts).not.toHaveProperty('stayedInMin')
  expect(facts).not.toHaveProperty('mordantAgeDays')
})

test('a correction found later tells what an old bath really was, one of its own day changes nothing', () => {
  const since = { kind: 'offset', fromMs: min(100), offsetC: -0.6 } as const
  expect(correctionSince([since], 68.3, T0, min(200))).toBeCloseTo(-0.6, 12)
  expect(correctionSince([{ ...since, fromMs: min(-5) }], 68.3, T0, min(200))).toBe(0)
  expect(correctionSince([], 68.3, T0, min(200))).toBe(0)
})
