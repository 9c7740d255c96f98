import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { decodePlan, encodePlan } from '#core/wire/plan-file'

// The example of the published file format, as it stands there.
const EXAMPLE = {
  title: 'Red on wool, two skeins',
  fibre: 'wool',
  stages: [
    {
      id: 'mordant',
      title: 'Alum mordant',
      kind: 'hold',
      windowC: [80, 86],
      ceilingC: 90,
      holdMin: 60,
      maxHeatingCPerMin: 1.5,
      turnEveryMin: 10,
      additives: [{ name: 'potassium alum', percentWof: 12 }],
    },
    { id: 'rinse', title: 'Rinse', kind: 'rest', minutes: 10 },
    {
      id: 'dye',
      title: 'Root bath',
      kind: 'hold',
      windowC: [65, 72],
      ceilingC: 76,
      holdMin: 90,
      outByMin: 240,
      additives: [{ name: 'madder root, ground', percentWof: 60 }],
    },
    { id: 'cool', title: 'Cool in the bath', kind: 'cool', coolToC: 30 },
  ],
}

const hold = { id: 'dye', kind: 'hold', windowC: [65, 72], holdMin: 90 }
const why = (json: unknown) => {
  const decoded = decodePlan(json)
  return decoded.ok ? 'accepted' : decoded.why
}
const withAlarm = (alarms: object) => why({ title: 't', stages: [hold], alarms })
const whyStage = (stage: object) => why({ title: 't', stages: [stage] })

test('the example of the file format is a plan as it stands', () => {
  const decoded = decodePlan(EXAMPLE)
  expect(decoded).toMatchObject({ ok: true, plan: { title: 'Red on wool, two skeins', fibre: 'wool' } })
  expect(decoded.ok && decoded.plan.stages.map((s) => s.additives.length)).toEqual([1, 0, 1, 0])
  expect(decoded.ok && decoded.plan.stages[2]).toMatchObject({ goods: true, ceilingC: 76, outByMin: 240 })
})

test('a ceiling, a title, a fibre, additives and goods may be left out', () => {
  const decoded = decodePlan({ stages: [hold] })
  expect(decoded).toMatchObject({
    ok: true,
    plan: { stages: [{ title: 'dye', goods: true, additives: [] }] },
  })
})

test('a plan written down and read again is the same plan', () => {
  const once = decodePlan(EXAMPLE)
  expect(once.ok && decodePlan(encodePlan(once.plan))).toEqual(once)
})

test('an unknown field is refused with its stage and the nearest known name', () => {
  expect(whyStage({ ...hold, celingC: 80 })).toBe(
    'stage "dye": the field "celingC" is not known; the nearest known one is "ceilingC"',
  )
  expect(whyStage({ ...hold, hold_min: 80 })).toContain('"holdMin"')
  expect(why({ title: 't', fiber: 'wool', stages: [hold] })).toBe(
    'the field "fiber" is not known; the nearest known one is "fibre"',
  )
  expect(whyStage({ ...hold, additives: [{ name: 'alum', percent: 12 }] })).toContain('additive "alum"')
  expect(why({ title: 't', stages: [hold], alarms: { 'above-window': { onDelay: 3 } } })).toContain(
    '"onDelayS"',
  )
  expect(why({ title: 't', stages: [hold], alarms: { 'above-windows': {} } })).toContain('"above-window"')
})

test('a window upside down is refused, one of equal bounds is not', () => {
  expect(whyStage({ ...hold, windowC: [72, 65] })).toBe(
    'stage "dye": windowC is upside down, [72, 65]; the bottom stands first, [65, 72]',
  )
  expect(whyStage({ ...hold, windowC: [70, 70] })).toBe('accepted')
})

test('a ceiling under the top of its window is refused, one on it is not', () => {
  expect(whyStage({ ...hold, ceilingC: 71.9 })).toBe(
    'stage "dye": ceilingC 71.9 lies under the top of the window, 72; allowed is 72 or more',
  )
  expect(whyStage({ ...hold, ceilingC: 72 })).toBe('accepted')
})

test('an id that repeats is refused with both places', () => {
  expect(why({ title: 't', stages: [hold, { id: 'r', kind: 'rest', minutes: 1 }, hold] })).toBe(
    'the id "dye" repeats, as stages 1 and 3; each stage needs an id of its own',
  )
})

test('temperatures are allowed from -5 to 105 °C, bounds included', () => {
  expect(whyStage({ ...hold, windowC: [-5, 105] })).toBe('accepted')
  expect(whyStage({ ...hold, windowC: [-5.1, 60] })).toBe(
    'stage "dye": windowC (bottom) is -5.1; allowed is a number from -5 to 105 °C',
  )
  expect(whyStage({ ...hold, ceilingC: 105.1 })).toContain('ceilingC is 105.1')
  expect(whyStage({ id: 'c', kind: 'cool', coolToC: 400 })).toContain('coolToC is 400')
})

test.each([Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY])(
  '%s is refused wherever a number stands',
  (bad) => {
    expect(whyStage({ ...hold, holdMin: bad })).toBe(`stage "dye": holdMin is ${bad}; allowed is a number`)
    expect(whyStage({ ...hold, windowC: [65, bad] })).toContain(`windowC 2 is ${bad}`)
    expect(whyStage({ ...hold, additives: [{ name: 'alum', percentWof: bad }] })).toContain('additive "alum"')
  },
)

test('a field that is missing or of another type says what it takes', () => {
  expect(whyStage({ id: 'dye', kind: 'hold', windowC: [65, 72] })).toBe(
    'stage "dye": holdMin is missing; it takes a number',
  )
  expect(whyStage({ ...hold, holdMin: '90' })).toBe('stage "dye": holdMin is "90"; allowed is a number')
  expect(whyStage({ ...hold, kind: 'holding' })).toBe(
    'stage "dye": kind is "holding"; allowed is "hold", "cool", "soak", "rest", "keep-warm"',
  )
  expect(whyStage({ ...hold, windowC: [65] })).toContain('a list of at least 2')
  expect(why({ title: 't' })).toBe('stages is missing; it takes a list')
  expect(why('a plan')).toBe('the file is "a plan"; allowed is an object')
  expect(why({ title: 't', stages: [] })).toContain('at least one stage')
})

test('lengths may be 0 but not negative, rates and ratios must be over 0', () => {
  expect(whyStage({ ...hold, holdMin: -1 })).toBe(
    'stage "dye": holdMin is -1; allowed is a number that is 0 or more',
  )
  expect(whyStage({ ...hold, holdMin: 0 })).toBe('accepted')
  expect(whyStage({ ...hold, turnEveryMin: 0 })).toContain('turnEveryMin is 0')
  expect(whyStage({ ...hold, liquorRatio: -20 })).toContain('liquorRatio is -20')
  expect(whyStage({ ...hold, phRange: [8, 6] })).toContain('phRange')
})

test('an additive has one amount, not none and not two', () => {
  expect(whyStage({ ...hold, additives: [{ name: 'chalk' }] })).toBe(
    'stage "dye": additive "chalk" has no amount; allowed is one, percentWof or gPerL',
  )
  expect(whyStage({ ...hold, additives: [{ name: 'chalk', percentWof: 1, gPerL: 1 }] })).toContain(
    'two amounts',
  )
})

test('a stage id that no event could name is refused', () => {
  expect(whyStage({ ...hold, id: 'root bath' })).toContain('without spaces')
  expect(whyStage({ ...hold, id: 'b'.repeat(65) })).toContain('1 to 64')
  expect(whyStage({ ...hold, id: 'b'.repeat(64) })).toBe('accepted')
})

test('alarms that may never be shelved can be put out of service neither by switch nor by delay', () => {
  expect(withAlarm({ 'above-ceiling': { inService: false } })).toContain('stays in service')
  expect(withAlarm({ 'not-cooling': { onDelayS: 3600 } })).toContain('from 0 to 120 s')
  // It stands in for the ceiling alarms of two pots, so it is bound as they are.
  expect(withAlarm({ 'probes-swapped': { inService: false } })).toContain('stays in service')
  expect(withAlarm({ 'below-window': { inService: false, onDelayS: 3600 } })).toBe('accepted')
  expect(withAlarm({ 'below-window': { deadbandC: -1 } })).toContain('deadbandC is -1')
})

const isAnswered = (json: unknown) => {
  const decoded = decodePlan(json)
  return decoded.ok || decoded.why.length > 0
}

test('whatever JSON comes in, the answer is a plan or a sentence, never a throw', () => {
  const slot = fc.oneof(fc.constant(hold), fc.anything(), fc.constant({ ...hold, windowC: null }))
  const file = fc.record({ stages: fc.array(slot), alarms: fc.anything() })
  const found = fc.check(fc.property(fc.oneof(fc.anything(), file), isAnswered))
  expect(found.counterexample).toBeNull()
  expect(found.failed).toBe(false)
})
