import { expect, test } from 'vitest'
import { bathDryG, isOfBath, shareOfBath01 } from '#core/batch/shared-bath'

const LOTS = [
  { id: 1, dryWeightG: 300 },
  { id: 2, dryWeightG: 100 },
]

test('the dry weight of a bath is that of all its lots', () => {
  expect(bathDryG(LOTS)).toBe(400)
  expect(bathDryG([...LOTS, { dryWeightG: null }])).toBe(400)
  expect(bathDryG([{ dryWeightG: null }])).toBeNull()
})

test('a lot bears of the bath what it weighs of it, and nothing is told while a weight is missing', () => {
  expect(shareOfBath01(LOTS, 1)).toBe(0.75)
  expect(shareOfBath01(LOTS, 2)).toBe(0.25)
  expect(shareOfBath01([LOTS[0]!, { id: 2, dryWeightG: null }], 1)).toBeNull()
  expect(
    shareOfBath01(
      LOTS.map(({ id }) => ({ id, dryWeightG: 0 })),
      1,
    ),
  ).toBeNull()
})

test('a lot that lies alone bears all of it, weighed or not', () => {
  expect(shareOfBath01([{ id: 1, dryWeightG: null }], 1)).toBe(1)
})

test('the water is the bath’s, the goods are each lot’s own', () => {
  expect(isOfBath('water')).toBe(true)
  expect(isOfBath('goods')).toBe(false)
})
