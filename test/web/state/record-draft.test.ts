import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { bodyFromDraft, draftOfBody } from '../../../web/state/record-draft.ts'
import { RECORD_FIELDS, type FormKind } from '../../../web/state/record-fields.ts'
import { RECORD_BODY_SCHEMAS } from '#core/wire/record-line-schema'

const METRIC = { unit: 'C', weights: 'metric' } as const
const US = { unit: 'F', weights: 'us' } as const

test('what is typed in ounces, gallons and °F is kept in grams, litres and °C', () => {
  // An avoirdupois ounce is 28.349523125 g, a US gallon 3.785411784 L (definitions of 1959); 212 °F is 100 °C.
  expect(bodyFromDraft('goods', { wetWeightG: '10' }, US)).toEqual({
    ok: true,
    body: { wetWeightG: 283.4952 },
  })
  expect(bodyFromDraft('water', { litres: '2' }, US)).toEqual({ ok: true, body: { litres: 7.5708 } })
  expect(bodyFromDraft('check', { place: 'top', tempC: '212' }, US)).toEqual({
    ok: true,
    body: { place: 'top', tempC: 100 },
  })
})

test('a line that is read back into its form and saved unchanged stays the same', () => {
  const body = fc.record(
    {
      words: fc.constant('clear'),
      matchScore: fc.integer({ min: 1, max: 5 }),
      evenness: fc.integer({ min: 1, max: 5 }),
      lab: fc.record({
        lightness: fc.integer({ min: 0, max: 100 }),
        a: fc.integer({ min: -90, max: 90 }),
        b: fc.integer({ min: -90, max: 90 }),
      }),
      referenceBatchId: fc.integer({ min: 1, max: 9999 }),
    },
    { requiredKeys: ['words'] },
  )
  fc.assert(
    fc.property(body, (result) => {
      expect(bodyFromDraft('result', draftOfBody('result', result, METRIC), METRIC)).toEqual({
        ok: true,
        body: result,
      })
    }),
  )
})

test('what nobody typed over stays to the last digit, whatever the units of the person', () => {
  const goods = { what: 'ten skeins', wetWeightG: 260, lot: 'M-4' }
  const typed = { ...draftOfBody('goods', goods, US), lot: 'M-5' }
  expect(typed.wetWeightG).toBe('9.171')
  expect(bodyFromDraft('goods', typed, US, goods)).toEqual({ ok: true, body: { ...goods, lot: 'M-5' } })
  const check = { place: 'top', tempC: 71.83, stageId: 'dye' }
  expect(bodyFromDraft('check', draftOfBody('check', check, US), US, check)).toEqual({
    ok: true,
    body: check,
  })
  // Typed over, it is what was typed: 9 oz are 255.1457 g.
  expect(bodyFromDraft('goods', { ...typed, wetWeightG: '9' }, US, goods)).toMatchObject({
    body: { wetWeightG: 255.1457 },
  })
})

test('what the form doesn’t show is kept when a line is corrected, and an emptied field goes', () => {
  const before = { dryWeightG: 850, what: 'three skeins', lot: 'M-4' }
  expect(bodyFromDraft('goods', { what: 'four skeins', lot: '' }, METRIC, before)).toEqual({
    ok: true,
    body: { dryWeightG: 850, what: 'four skeins' },
  })
})

test('a colour needs all three numbers, a number must be one, and nothing at all is nothing to keep', () => {
  expect(bodyFromDraft('result', { lightness: '40', a: '3' }, METRIC)).toEqual({
    ok: false,
    problems: { lightness: 'needs-all-three' },
  })
  expect(bodyFromDraft('ph', { ph: 'sour' }, METRIC)).toEqual({ ok: false, problems: { ph: 'needs-number' } })
  expect(bodyFromDraft('ph', {}, METRIC)).toEqual({ ok: false, problems: { ph: 'needs-text' } })
  expect(bodyFromDraft('water', {}, METRIC)).toEqual({ ok: false, problems: { source: 'nothing' } })
})

test('every field of every form is one that the server takes', () => {
  for (const kind of Object.keys(RECORD_FIELDS) as FormKind[]) {
    const known = Object.keys(RECORD_BODY_SCHEMAS[kind].shape)
    const own = RECORD_FIELDS[kind].map(({ name, sort }) => (sort === 'lab' ? 'lab' : name))
    expect(known).toEqual(expect.arrayContaining(own))
    for (const { name, choices } of RECORD_FIELDS[kind])
      for (const choice of choices ?? []) {
        const must = RECORD_FIELDS[kind].filter((field) => field.must === true && field.name !== name)
        const rest = Object.fromEntries(must.map((field) => [field.name, field.choices?.[0] ?? '1']))
        const read = bodyFromDraft(kind, { ...rest, [name]: choice }, METRIC)
        expect(
          read.ok && RECORD_BODY_SCHEMAS[kind].safeParse(read.body).success,
          `${kind} ${name} ${choice}`,
        ).toBe(true)
      }
  }
})
