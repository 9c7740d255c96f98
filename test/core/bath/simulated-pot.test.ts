import { expect, test } from 'vitest'
import { lossW, probeC, type SimulatedPotSetup, startPot, stepPot } from '#core/bath/simulated-pot'

const WREN = {
  litres: 10,
  diameterCm: 24,
  emptyKg: 2,
  burner: { kind: 'plate', dialMax: 10, ratedW: 1500 },
} as const
const setup = (more: Partial<SimulatedPotSetup> = {}): SimulatedPotSetup => ({ vessel: WREN, ...more })

// Story 8 of the trade notes: 15 L at 80.0 °C, goods of 500 g dry with 1 kg water at 20 °C → 75.7 °C (mixing).
test('wet goods cool the bath by mixing', () => {
  const vessel = { litres: 15, emptyKg: 0, burner: { dialMax: 10 } }
  const before = startPot({ vessel, startC: 80 })
  const after = stepPot(before, 0, { goodsIn: { dryKg: 0.5, waterKg: 1, tempC: 20 } })
  expect(after.waterC).toBeCloseTo(75.7, 1)
})

// The same story: 18 L at 82 °C and 2 L at 15 °C → 75.3 °C; with water of 80 °C 81.8 °C.
test('topping up mixes', () => {
  const vessel = { litres: 18, emptyKg: 0, burner: { dialMax: 10 } }
  const pot = startPot({ vessel, startC: 82 })
  expect(stepPot(pot, 0, { topUp: { litres: 2, tempC: 15 } }).waterC).toBeCloseTo(75.3, 1)
  expect(stepPot(pot, 0, { topUp: { litres: 2, tempC: 80 } }).waterC).toBeCloseTo(81.8, 1)
})

// By the arithmetic of the handbooks: 15 L from 20 to 90 °C in a steel pot of 3 kg take 4387 + 105 kJ; at 2 kW and 74 % that is 50.6 min.
test('without losses a pot heats as the sum of its heat capacities says', () => {
  const vessel = { litres: 15, emptyKg: 3, burner: { kind: 'coil', dialMax: 10, ratedW: 2000 } } as const
  let pot = stepPot(startPot({ vessel, startC: 20, lossFactor: 0 }), 0, { dial: 10 })
  let min = 0
  while (pot.waterC < 90) {
    pot = stepPot(pot, 60)
    min += 1
  }
  // A coil's heat comes about a minute late.
  expect(min).toBeGreaterThanOrEqual(51)
  expect(min).toBeLessThanOrEqual(53)
})

// Trade notes 3.3: a cast plate carries a pot of 10 L some 6 °C on after it was turned off.
test('a heavy plate coasts on for several degrees after it was turned off', () => {
  let pot = stepPot(startPot(setup({ startC: 35 })), 900, { dial: 10 })
  const offC = pot.waterC
  pot = stepPot(pot, 0, { dial: 0 })
  let peakC = offC
  for (let s = 0; s < 1800; s += 10) {
    pot = stepPot(pot, 10)
    peakC = Math.max(peakC, pot.waterC)
  }
  expect(peakC - offC).toBeGreaterThan(4)
  expect(peakC - offC).toBeLessThan(8)
})

// Trade notes 3.8 (calculated there): 20 L of 30 cm lose about 180 W at 82 °C with a lid and 523 W without.
test('an open pot loses two to four times what a lidded one loses', () => {
  const vessel = { litres: 20, diameterCm: 30, surroundingsC: 20, burner: { dialMax: 10 } }
  const lidded = startPot({ vessel, startC: 82 })
  const open = stepPot(lidded, 0, { lid: 'off' })
  expect(Math.abs(lossW(lidded) / 180 - 1)).toBeLessThan(0.15)
  expect(Math.abs(lossW(open) / 523 - 1)).toBeLessThan(0.4)
})

test('the bath never gets hotter than water boils, and boils away', () => {
  let pot = stepPot(startPot(setup({ startC: 95 })), 0, { dial: 10 })
  const fullKg = pot.waterKg
  for (let min = 0; min < 120; min++) pot = stepPot(pot, 60)
  expect(pot.waterC).toBeCloseTo(99.97, 1)
  expect(pot.waterKg).toBeLessThan(fullKg - 0.3)
})

// Trade notes 3.6 (calculated there): pulled out at 82.1 °C, 10 s 75.0, 30 s 63.5, 60 s 51.6.
test('a probe taken out falls far faster than water can, and comes back', () => {
  let pot = stepPot(startPot(setup({ startC: 82.1, stepC: 0.01 })), 0, { probe: 'out' })
  pot = stepPot(pot, 10)
  expect(Math.abs(probeC(pot) - 75)).toBeLessThan(0.5)
  pot = stepPot(pot, 50)
  expect(Math.abs(probeC(pot) - 51.6)).toBeLessThan(0.5)
  pot = stepPot(pot, 120, { probe: 'in' })
  expect(Math.abs(probeC(pot) - pot.waterC)).toBeLessThan(0.1)
})

function seededDay() {
  let seed = 7
  const random = () => (seed = (seed * 16_807) % 2_147_483_647) / 2_147_483_647
  let pot = stepPot(startPot(setup()), 0, { dial: 6 })
  return Array.from({ length: 100 }, () => {
    pot = stepPot(pot, 1)
    return probeC(pot, random)
  })
}
test('the same steps and the same random numbers give the same readings', () => {
  expect(seededDay()).toEqual(seededDay())
})

test('a reading stands on the steps of the probe', () => {
  const pot = startPot(setup({ startC: 20.03, stepC: 0.0625 }))
  expect(probeC(pot) / 0.0625).toBe(Math.round(20.03 / 0.0625))
})
