import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { batchCost, energyKWh } from '#core/batch/cost'
import { roundToScale } from '#core/batch/scale-rounding'
import { type StockEvent, shortages, stockLeft } from '#core/batch/stock'
import { weighedDifference } from '#core/batch/weighed'
import { gramsOfPercent, litresOfRatio, stageNeeds, stockMl } from '#core/batch/weighing'
import { gramsFromOunces, litresFromUsGallons, ounces, usGallons } from '#core/batch/weight-units'
import type { Stage } from '#core/plan/plan'

// Worked examples of the trade: 850 g of goods (common practice, no source beyond the arithmetic itself).
test.each([
  [850, 15, 127.5],
  [850, 6, 51],
  [850, 8, 68],
  [850, 2, 17],
  [850, 35, 297.5],
  // a dye guide and a textile textbook page print these three
  [125, 2, 2.5],
  [300, 3, 9],
  [250, 2, 5],
])('%f g of goods at %f %% need %f g', (dryWeightG, percent, grams) => {
  expect(gramsOfPercent(dryWeightG, percent)).toBeCloseTo(grams, 9)
})

test('litres follow the liquor ratio', () => {
  expect(litresOfRatio(850, 30)).toBeCloseTo(25.5, 9)
  expect(litresOfRatio(850, 25)).toBeCloseTo(21.25, 9)
})

test('a per cent of the goods is grams a litre at a ratio', () => {
  // A textile technology examination of 2019: wool, 4 % owf at 1:40, initial concentration 1.0 g/L.
  expect(gramsOfPercent(250, 4) / litresOfRatio(250, 40)).toBe(1)
})

test('a stock solution carries a shade', () => {
  // A textile calculation page: 5 g at 2 % from a 0.5 % stock are 20 mL; 5 g at 0.5 % from 1 % are 2.5 mL.
  expect(stockMl(5, 2, 0.5)).toBe(20)
  expect(stockMl(5, 0.5, 1)).toBe(2.5)
})

const MORDANT: Stage = {
  id: 'mordant',
  title: 'Mordant',
  kind: 'hold',
  windowC: [80, 86],
  holdMin: 60,
  goods: true,
  liquorRatio: 30,
  additives: [
    { name: 'alum', percentWof: 15 },
    { name: 'soap', gPerL: 1 },
  ],
}

test('a stage needs its grams and litres; grams a litre follow the bath', () => {
  const needs = stageNeeds(MORDANT, 850, null)
  expect(needs.litres).toBeCloseTo(25.5, 9)
  expect(needs.additives.map((a) => a.needG)).toEqual([127.5, 25.5])
})

test('grams a litre are unknown without a volume, and follow the pot when there is no ratio', () => {
  const { liquorRatio: _, ...open } = MORDANT
  expect(stageNeeds(open, 850, null).additives[1]?.needG).toBeNull()
  expect(stageNeeds(open, 850, 18).additives[1]?.needG).toBe(18)
})

test('goods without a weight are the caller’s mistake', () => {
  expect(() => stageNeeds(MORDANT, 0, null)).toThrow(RangeError)
  expect(() => stageNeeds(MORDANT, Number.NaN, null)).toThrow('found NaN')
})

test.each([
  [127.53, 1, 128],
  [127.53, 0.1, 127.5],
  [127.53, 0.5, 127.5],
  [9.75, 0.05, 9.75],
  [9.75, 0.1, 9.8],
  [0.375, 0.25, 0.5],
  [297.5, 5, 300],
  [0, 1, 0],
])('%f g on a scale with steps of %f g show %f g', (weightG, stepG, shownG) => {
  expect(roundToScale(weightG, stepG).shownG).toBe(shownG)
})

test('a weight finer than ten steps of the scale says so', () => {
  expect(roundToScale(0.9, 0.1).isTooFine).toBe(true)
  expect(roundToScale(1, 0.1).isTooFine).toBe(false)
  expect(roundToScale(2.4, 1)).toMatchObject({ shownG: 2, isTooFine: true })
  expect(roundToScale(2.4, 1).errorPercent).toBeCloseTo(-16.67, 2)
})

test('rounding to a scale is never off by more than half a step', () => {
  const found = fc.check(
    fc.property(
      fc.double({ min: 0, max: 5000, noNaN: true }),
      fc.constantFrom(0.01, 0.05, 0.1, 0.2, 0.25, 0.5, 1, 2, 5),
      (weightG, stepG) => Math.abs(roundToScale(weightG, stepG).shownG - weightG) <= stepG / 2 + 1e-6,
    ),
  )
  expect(found.counterexample).toBeNull()
})

test('weighed against planned warns over 5 %, not on it', () => {
  expect(weighedDifference(200, 210)).toEqual({ differenceG: 10, percent: 5, isOff: false })
  expect(weighedDifference(10.5, 11.025).isOff).toBe(false)
  expect(weighedDifference(200, 210.1).isOff).toBe(true)
  expect(weighedDifference(200, 189)).toMatchObject({ differenceG: -11, percent: -5.5, isOff: true })
  expect(weighedDifference(0, 0.5)).toEqual({ differenceG: 0.5, percent: null, isOff: true })
  expect(weighedDifference(0, 0).isOff).toBe(false)
  expect(weighedDifference(8, 0)).toEqual({ differenceG: -8, percent: -100, isOff: true })
  expect(weighedDifference(0, 3)).toEqual({ differenceG: 3, percent: null, isOff: true })
})

test('ounces and gallons are the defined ones and go both ways', () => {
  // NIST Handbook 44, appendix C: 1 oz avdp = 28.349523125 g, 1 US gallon = 3.785411784 L, both exact.
  expect(gramsFromOunces(1)).toBe(28.349523125)
  expect(litresFromUsGallons(1)).toBe(3.785411784)
  expect(ounces(gramsFromOunces(7.3))).toBeCloseTo(7.3, 12)
  expect(usGallons(litresFromUsGallons(5.5))).toBeCloseTo(5.5, 12)
})

const LOTS = [
  { id: 1, material: 'madder root, ground', lot: 'R-11' },
  { id: 2, material: 'Madder root, ground ', lot: 'R-14' },
  { id: 3, material: 'chalk', lot: 'C-1' },
]
const STOCK: readonly StockEvent[] = [
  { kind: 'used', lotId: 1, atMs: 20, grams: 400 },
  { kind: 'received', lotId: 1, atMs: 10, grams: 500 },
  { kind: 'received', lotId: 2, atMs: 30, grams: 100 },
  { kind: 'received', lotId: 3, atMs: 30, grams: 50 },
]

test('stock is taken down by what was weighed, in order of time, and a count overrides the reckoning', () => {
  expect(stockLeft(STOCK).get(1)).toBe(100)
  const counted: StockEvent = { kind: 'counted', lotId: 1, atMs: 40, grams: 93 }
  expect(stockLeft([counted, ...STOCK]).get(1)).toBe(93)
  expect(stockLeft([...STOCK, { kind: 'discarded', lotId: 1, atMs: 50, grams: 30 }]).get(1)).toBe(70)
})

test('what runs out in the middle of a batch is said with its stage before the batch begins', () => {
  const needs = [
    { stageId: 'first', material: 'madder root, ground', needG: 150 },
    { stageId: 'second', material: 'madder root, ground', needG: 110 },
    { stageId: 'second', material: 'chalk', needG: 50 },
    { stageId: 'second', material: 'never stocked', needG: 50 },
  ]
  expect(shortages(needs, LOTS, stockLeft(STOCK))).toEqual([
    { material: 'madder root, ground', stageId: 'second', leftG: 200, needG: 260, missingG: 60 },
  ])
})

test('a material that two stages spell differently lies on the shelf once', () => {
  const needs = [
    { stageId: 'first', material: 'Madder root, ground', needG: 150 },
    { stageId: 'second', material: ' madder root, ground', needG: 110 },
  ]
  expect(shortages(needs, LOTS, stockLeft(STOCK))).toMatchObject([
    { stageId: 'second', leftG: 200, needG: 260, missingG: 60 },
  ])
})

test('a lot that nothing was received of holds nothing, one reckoned under 0 no less', () => {
  const needs = [{ stageId: 'first', material: 'chalk', needG: 0.5 }]
  expect(shortages(needs, LOTS, stockLeft([]))).toMatchObject([{ leftG: 0, missingG: 0.5 }])
  const over = stockLeft([{ kind: 'used', lotId: 3, atMs: 1, grams: 20 }])
  expect(shortages(needs, LOTS, over)).toMatchObject([{ leftG: 0, missingG: 0.5 }])
})

test('the cost of a batch adds up and names what has no price', () => {
  const cost = batchCost({
    goodsCost: 60,
    materials: [
      { name: 'madder', grams: 400, pricePerKg: 45 },
      { name: 'chalk', grams: 15, pricePerKg: null },
    ],
    energyKWh: 4,
    pricePerKWh: 0.3,
    handsOnMin: 90,
    hourlyWage: null,
  })
  expect(cost).toEqual({
    goods: 60,
    materials: 18,
    energy: 1.2,
    work: 0,
    total: 79.2,
    unknown: ['chalk', 'work'],
  })
})

test('energy: water warmed, over the share of the burner that reaches it', () => {
  // 15 L, 20 → 90 °C with 1 kg of wool and a 3 kg steel pot take 4587 kJ (handbook specific heats); at the 74 %
  // reported for an electric coil that is 1.722 kWh from the socket.
  const bath = { capacityKJPerC: 4587 / 70, riseC: 70, lossW: 0, heldMin: 0, share01: 0.74 }
  expect(energyKWh(bath)).toBeCloseTo(1.722, 3)
  expect(energyKWh({ ...bath, riseC: 0, lossW: 180, heldMin: 60, share01: 1 })).toBeCloseTo(0.18, 9)
})
