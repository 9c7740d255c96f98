import { expect, test } from 'vitest'
import { roleOf } from '#core/batch/additive-roles'
import { CAUTION_NAMES, type CautionTexts, cautionsOfPlan } from '#core/plan/cautions'
import { checkPlan } from '#core/plan/check-plan'
import { fibreKinds } from '#core/plan/fibre'
import { STARTING_POINTS } from '#core/plan/starting-points'
import { startingPointsIn } from '#core/words/starting-points-in'
import { wordsOf } from '#core/words/words-of'

const ENGLISH = startingPointsIn('en-GB')
const GERMAN = startingPointsIn('de-DE')
const NAMES = Object.fromEntries(CAUTION_NAMES.map((name) => [name, name])) as CautionTexts

test('English starting points stand as they are', () => {
  expect(ENGLISH).toBe(STARTING_POINTS)
})

test('every text of a starting point has its German, and nothing else of it changes', () => {
  expect(GERMAN.map((p) => p.id)).toEqual(ENGLISH.map((p) => p.id))
  for (const [i, { plan }] of GERMAN.entries()) {
    expect(checkPlan(plan)).toEqual([])
    const figures = (stages: typeof plan.stages) =>
      stages.map((stage) => ({
        ...stage,
        title: '',
        note: '',
        additives: stage.additives.map((a) => ({ ...a, name: '' })),
      }))
    expect(figures(plan.stages)).toEqual(figures(ENGLISH[i]!.plan.stages))
  }
})

test('no text of a starting point is left in English, nor only in part', () => {
  const textsOf = ({ title, plan }: (typeof GERMAN)[number]) => [
    title,
    plan.fibre ?? '',
    ...plan.stages.flatMap((s) => [
      s.title,
      ...(s.note ?? '').split(/\.(?: |$)/).filter((part) => part !== ''),
      ...s.additives.map((a) => a.name),
    ]),
  ]
  const german = new Set(Object.values(wordsOf('de').starting!))
  expect([...new Set(GERMAN.flatMap(textsOf))].filter((text) => !german.has(text))).toEqual([])
})

test('goods, mordants, helps and dusts are known by their German names as by the English', () => {
  for (const [i, point] of GERMAN.entries()) {
    const english = ENGLISH[i]!.plan
    expect(fibreKinds(point.plan.fibre)).toEqual([point.fibre])
    expect(cautionsOfPlan(point.plan.stages, NAMES)).toEqual(cautionsOfPlan(english.stages, NAMES))
    const roles = (plan: typeof english) => plan.stages.flatMap((s) => s.additives.map((a) => roleOf(a.name)))
    expect(roles(point.plan)).toEqual(roles(english))
  }
})
