import { expect, test } from 'vitest'
import type { ForecastRecord } from '#core/wire/burner'
import { errorOf, isInside, recordSummaries } from '../../../web/state/forecast-record.ts'
import { firstDraft, goalOf, stageChoices, whatIfRanges } from '../../../web/state/what-if-draft.ts'
import { MADDER_PLAN } from '../../kit/page-stove.ts'

const MIN = 60_000
const said = (more: Partial<ForecastRecord>): ForecastRecord => ({
  kind: 'window',
  batchId: 1,
  stageId: 'dye',
  madeMs: 0,
  told: 40 * MIN,
  low90: 35 * MIN,
  high90: 50 * MIN,
  came: 42 * MIN,
  isGuess: false,
  source: 'live',
  ...more,
})

test('how good forecasts were is told without the guesses, times in minutes and peaks in degrees', () => {
  const record = [
    said({}),
    said({ came: 55 * MIN }),
    said({ came: 41 * MIN }),
    said({ isGuess: true, came: 400 * MIN }),
    said({ kind: 'peak', told: 71, low90: 70, high90: 72, came: 70.4 }),
  ]
  const told = recordSummaries(record).map((r) => [r.kind, r.count, r.inside, Math.round(r.off * 10) / 10])
  expect(told).toEqual([
    ['window', 3, 2, 2],
    ['peak', 1, 1, 0.6],
  ])
  expect(recordSummaries([said({ isGuess: true })])).toEqual([])
})

test('what was said live is told apart from what replay made up', () => {
  const record = [
    said({ source: 'replayed', came: 60 * MIN }),
    said({}),
    said({ kind: 'drift', told: 70, came: 70.5 }),
  ]
  expect(recordSummaries(record).map((r) => [r.source, r.kind, r.off])).toEqual([
    ['live', 'window', 2],
    ['live', 'drift', 0.5],
    ['replayed', 'window', 20],
  ])
})

test('a bound of the range counts as inside', () => {
  expect([isInside(said({ came: 50 * MIN })), isInside(said({ came: 50 * MIN + 1 }))]).toEqual([true, false])
  expect(errorOf(said({ told: 50 * MIN, came: 20 * MIN }))).toBe(30)
})

const vessel = { litres: 16, burner: { dialMax: 10 } }

test('the sliders begin at the pot as it stands, each within its own range', () => {
  const live = { tempC: 69.37, dial: 3.5, lid: null }
  const draft = firstDraft(vessel, 18, live)
  expect(draft).toEqual({ litres: 16, lid: 'on', dial: 3.5, surroundingsC: 18, startC: 69.5, hours: 4 })
  expect(firstDraft(vessel, 18, null)).toMatchObject({ dial: 7, startC: 18 })
  for (const pot of [vessel, { litres: 4.2, burner: { dialMax: 100 } }]) {
    const ranges = whatIfRanges(pot)
    const first = firstDraft(pot, 21.3, null)
    for (const [name, { min, max, step }] of Object.entries(ranges)) {
      const value = first[name as keyof typeof ranges]
      expect([name, value >= min && value <= max && step > 0]).toEqual([name, true])
    }
  }
})

test('stages with a window or a goal can be held against the curve, rests can not', () => {
  const choices = stageChoices([{ id: 7, plan: MADDER_PLAN }])
  expect(choices.map((c) => c.key)).toEqual(['7/mordant', '7/dye', '7/cool'])
  expect(MADDER_PLAN.stages.map(goalOf).slice(0, 2)).toEqual([{ windowC: [80, 86], ceilingC: 90 }, null])
})
