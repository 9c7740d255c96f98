import { expect, test } from 'vitest'
import { mixedC, water, wetGoods } from '#core/bath/mixing'

// Worked in the trade notes (story 8): 15 L at 80.0 °C, 500 g of wool with 1 kg water at 20 °C → 75.7 °C;
// 18 L at 82 °C and 2 L at 15 °C → 75.3 °C, at 80 °C → 81.8 °C.
test('mixedC gives the sums of the trade notes', () => {
  expect(mixedC([water(15, 80), wetGoods(0.5, 20)])).toBeCloseTo(75.7, 1)
  expect(mixedC([water(18, 82), water(2, 15)])).toBeCloseTo(75.3, 1)
  expect(mixedC([water(18, 82), water(2, 80)])).toBeCloseTo(81.8, 1)
})

// OpenStax, College Physics, example 14.1: 0.500 kg of aluminium (900 J/(kg K)) and 0.250 L of water from 20 to
// 80 °C take 89.8 kJ, 69.9 % of it for the water.
test('heat capacities add up as in the textbook pan of water', () => {
  const pan = 0.5 * 900
  const inWater = water(0.25, 50).capacityJPerC
  expect(((pan + inWater) * 60) / 1000).toBeCloseTo(89.8, 0)
  expect(inWater / (pan + inWater)).toBeCloseTo(0.699, 2)
})

// By the handbooks' specific heats: 15 L from 20 to 90 °C take 4386.8 kJ, 1 kg of dry wool (1.36 kJ/(kg K), from
// memory) 95.2 kJ, 3 kg of steel (0.50) 105.0 kJ, together 4587 kJ.
test('a fill with its goods and its pot takes the heat of the handbook sum', () => {
  const goodsKJ = (wetGoods(1, 20, 0).capacityJPerC * 70) / 1000
  expect(Math.abs(goodsKJ / 95.2 - 1)).toBeLessThan(0.02)
  const potKJ = (3 * 500 * 70) / 1000
  const fillKJ = (water(15, 20).capacityJPerC * 70) / 1000
  expect(Math.abs((fillKJ + goodsKJ + potKJ) / 4587 - 1)).toBeLessThan(0.005)
})

test('nothing mixed with nothing has no temperature', () => {
  expect(mixedC([])).toBeNaN()
})
