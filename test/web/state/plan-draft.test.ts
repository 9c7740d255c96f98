import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { checkPlan } from '#core/plan/check-plan'
import { STARTING_POINTS } from '#core/plan/starting-points'
import { decodePlan, encodePlan } from '#core/wire/plan-file'
import { newAlarm } from '../../../web/state/alarm-draft.ts'
import { type PlanDraft, draftOf, emptyPlanDraft, newStage } from '../../../web/state/plan-draft.ts'
import { planFromDraft, stageIds } from '../../../web/state/plan-from-draft.ts'

test.each(['C', 'F'] as const)('a plan that is opened and saved in °%s is the same plan', (unit) => {
  for (const { plan } of STARTING_POINTS) {
    const read = planFromDraft(draftOf(plan, unit), unit)
    if (!read.ok) throw new Error(JSON.stringify(read.problems))
    expect(checkPlan(read.plan)).toEqual([])
    expect(read.plan).toEqual(plan)
    expect(decodePlan(encodePlan(read.plan)).ok).toBe(true)
  }
})

const tenth = (min: number, max: number) => fc.integer({ min: min * 100, max: max * 100 }).map((n) => n / 100)
const line = fc.stringMatching(/^[a-z]{1,9}$/)
const windowC = fc.tuple(tenth(0, 40), tenth(0, 40)).map(([low, more]) => [low, low + more])
const base = fc.record(
  {
    additives: fc.array(
      fc.oneof(
        fc.record(
          { name: line, note: line, percentWof: tenth(0, 99) },
          { requiredKeys: ['name', 'percentWof'] },
        ),
        fc.record({ name: line, note: line, gPerL: tenth(0, 99) }, { requiredKeys: ['name', 'gPerL'] }),
      ),
    ),
    liquorRatio: tenth(1, 99),
    phRange: fc.tuple(tenth(0, 7), tenth(7, 14)),
    note: line,
    cautions: fc.array(line, { minLength: 1 }),
  },
  { requiredKeys: ['additives'] },
)
const bits = {
  ceilingC: tenth(81, 105),
  maxHeatingCPerMin: tenth(1, 9),
  maxCoolingCPerMin: tenth(1, 9),
  turnEveryMin: tenth(1, 99),
  outByMin: tenth(1, 999),
  minutes: tenth(0, 999),
}
const some = (...names: readonly (keyof typeof bits)[]) =>
  fc.record(Object.fromEntries(names.map((name) => [name, bits[name]])), { requiredKeys: [] })
const must = <T extends object>(model: { [K in keyof T]: fc.Arbitrary<T[K]> }) => fc.record(model)
const kinds = [
  fc.tuple(
    must({ kind: fc.constant('hold'), windowC, holdMin: tenth(0, 300), goods: fc.boolean() }),
    some('ceilingC', 'maxHeatingCPerMin', 'maxCoolingCPerMin', 'turnEveryMin', 'outByMin'),
  ),
  fc.tuple(
    must({ kind: fc.constant('cool'), coolToC: tenth(10, 40) }),
    some('maxCoolingCPerMin', 'outByMin'),
  ),
  fc.tuple(must({ kind: fc.constant('soak'), minutes: bits.minutes }), some('ceilingC')),
  fc.tuple(must({ kind: fc.constant('rest'), minutes: bits.minutes }), some()),
  fc.tuple(
    must({ kind: fc.constant('keep-warm'), windowC }),
    some('ceilingC', 'minutes', 'maxHeatingCPerMin'),
  ),
]
const alarm = fc.record(
  { onDelayS: tenth(0, 100), offDelayS: tenth(0, 100), deadbandC: tenth(0, 9) },
  { requiredKeys: [] },
)
const plans = fc.record(
  {
    title: line,
    fibre: line,
    stages: fc
      .array(fc.tuple(base, fc.oneof(...kinds)), { minLength: 1, maxLength: 4 })
      .map((all) =>
        all.map(([any, [own, more]], i) => ({ id: `s${i}`, title: `Stage ${i}`, ...any, ...own, ...more })),
      ),
    alarms: fc.dictionary(fc.constantFrom('above-window', 'near-boil', 'above-ceiling'), alarm, {
      minKeys: 1,
      noNullPrototype: true,
    }),
  },
  { requiredKeys: ['title', 'stages'] },
)

test.each(['C', 'F'] as const)(
  'every field of a plan goes through the form in °%s untouched, to the last digit',
  (unit) => {
    fc.assert(
      fc.property(plans, (json) => {
        const decoded = decodePlan(json)
        if (!decoded.ok) throw new Error(decoded.why)
        expect(planFromDraft(draftOf(decoded.plan, unit), unit)).toEqual({ ok: true, plan: decoded.plan })
      }),
    )
  },
)

test('pH range, cautions and alarms are read from the form; half a range or a range upside down is told', () => {
  const draft = hold({ windowLow: '80', windowHigh: '86', holdMin: '60', phLow: '6,5', phHigh: '8' })
  const whole = {
    ...draft,
    stages: draft.stages.map((stage) =>
      Object.assign({}, stage, { cautions: 'Open the lid away\n\n gloves ' }),
    ),
    alarms: [
      {
        ...newAlarm('below-window'),
        numbers: { onDelayS: '120', offDelayS: '', deadbandC: '0.9' },
        service: 'in' as const,
      },
    ],
  }
  const read = planFromDraft(whole, 'C')
  expect(read.ok && read.plan.stages[0]).toMatchObject({
    phRange: [6.5, 8],
    cautions: ['Open the lid away', 'gloves'],
  })
  expect(read.ok && read.plan.alarms).toEqual({
    'below-window': { onDelayS: 120, deadbandC: 0.9, inService: true },
  })
  const inF = planFromDraft(whole, 'F')
  // A deadband is a difference: 0.9 °F is 0.5 °C.
  expect(inF.ok && inF.plan.alarms?.['below-window']?.deadbandC).toBe(0.5)
  const window = { windowLow: '80', windowHigh: '86', holdMin: '60' }
  expect(problems(hold({ ...window, phLow: '6' }))).toEqual({ '1.phHigh': 'needs-number' })
  expect(problems(hold({ ...window, phLow: '8', phHigh: '6' }))).toEqual({ '1.phHigh': 'ph-upside-down' })
  expect(problems(hold({ ...window, phLow: '8', phHigh: '15' }))).toEqual({ '1.phHigh': 'not-a-ph' })
  const noNumber = { ...newAlarm('near-boil'), numbers: { onDelayS: 'x', offDelayS: '', deadbandC: '' } }
  expect(problems({ ...hold(window), alarms: [noNumber] })).toEqual({
    'alarms.near-boil.onDelayS': 'needs-number',
  })
})

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
  expect(problems(hold({ windowLow: '80 or so', windowHigh: '86', holdMin: '-1' }))).toEqual({
    '1.windowLow': 'needs-number',
    '1.holdMin': 'must-not-be-negative',
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
