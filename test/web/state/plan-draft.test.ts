import { expect, test } from 'vitest'
import { checkPlan } from '#core/plan/check-plan'
import { STARTING_POINTS } from '#core/plan/starting-points'
import { decodePlan, encodePlan } from '#core/wire/plan-file'
import { type PlanDraft, draftOf, emptyPlanDraft, newStage } from '../../../web/state/plan-draft.ts'
import { planFromDraft, stageIds } from '../../../web/state/plan-from-draft.ts'

test.each(['C', 'F'] as const)('a plan that is opened and saved in °%s is the same plan', (unit) => {
  for (const { plan } of STARTING_POINTS) {
    const read = planFromDraft(draftOf(plan, unit), unit)
    if (!read.ok) throw new Error(JSON.stringify(read.problems))
    expect(checkPlan(read.plan)).toEqual([])
    // Two decimals of °F are 0.006 °C apart at most.
    expect(rounded(read.plan)).toEqual(rounded(plan))
    expect(decodePlan(encodePlan(read.plan)).ok).toBe(true)
  }
})

const rounded = (plan: unknown): unknown =>
  JSON.parse(JSON.stringify(plan), (_, value: unknown) =>
    typeof value === 'number' ? Math.round(value * 50) / 50 : value,
  )

const hold = (numbers: Record<string, string>) => ({
  ...emptyPlanDraft(),
  title: 'Red',
  stages: [{ ...newStage(1), title: 'Dye', numbers }],
})
const problems = (draft: PlanDraft, unit: 'C' | 'F' = 'C') => {
  const read = planFromDraft(draft, unit)
  return read.ok ? {} : read.problems
}

test('an empty form names each field that needs something', () => {
  expect(problems(emptyPlanDraft())).toEqual({
    title: 'needs-text',
    '1.title': 'needs-text',
    '1.windowLow': 'needs-number',
    '1.windowHigh': 'needs-number',
    '1.holdMin': 'needs-number',
  })
})

test('a window upside down and a ceiling under it are told at their fields', () => {
  expect(problems(hold({ windowLow: '86', windowHigh: '80', holdMin: '60' }))).toEqual({
    '1.windowHigh': 'window-upside-down',
  })
  expect(problems(hold({ windowLow: '80', windowHigh: '86', ceiling: '85', holdMin: '60' }))).toEqual({
    '1.ceiling': 'ceiling-under-window',
  })
})

test('a decimal comma is a decimal point, a word is no number, and nothing is half read', () => {
  expect(problems(hold({ windowLow: '79,5', windowHigh: '86', holdMin: '60' }))).toEqual({})
  expect(problems(hold({ windowLow: '80 or so', windowHigh: '86', holdMin: '0' }))).toEqual({
    '1.windowLow': 'needs-number',
    '1.holdMin': 'must-be-positive',
  })
})

test('what is typed in °F is stored in °C; a rate is a difference and not shifted by 32', () => {
  const read = planFromDraft(
    hold({ windowLow: '176', windowHigh: '185', holdMin: '60', maxHeating: '2.7' }),
    'F',
  )
  expect(read.ok && read.plan.stages[0]).toMatchObject({ windowC: [80, 85], maxHeatingCPerMin: 1.5 })
})

const rest = (id: string | null, title: string) => ({ id, title, kind: 'rest' as const })

test('a stage keeps its id; new ones are made from their titles and never alike', () => {
  expect(
    stageIds([
      rest('dye', 'Root bath'),
      rest(null, 'Dye'),
      rest(null, 'Dye'),
      rest(null, 'Färben!'),
      rest(null, '…'),
    ]),
  ).toEqual(['dye', 'dye-2', 'dye-3', 'farben', 'rest'])
})
