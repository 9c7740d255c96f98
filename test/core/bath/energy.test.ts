import { expect, test } from 'vitest'
import { dialStretches, energyCost, energyUsed } from '#core/bath/energy'
import { guessPot } from '#core/bath/pot-belief'

const belief = guessPot({ litres: 20, burner: { kind: 'coil', dialMax: 10, ratedW: 2000 } })

// 2 kW for an hour and a half are 3 kWh.
test('a burner at its top draws its nameplate', () => {
  const use = energyUsed(belief, [{ dial: 10, seconds: 5400 }])
  expect(use.kWh).toBeCloseTo(3, 6)
  expect(use.fromNameplate).toBe(true)
  expect(energyCost(use, 0.3)).toBeCloseTo(0.9, 6)
})

// 1 kWh of heat in the water by a coil of 74 % (US DOE as quoted) takes 1.35 kWh.
test('without a nameplate the efficiency of the handbook is taken', () => {
  const bare = guessPot({ litres: 20, burner: { kind: 'coil', dialMax: 10 } })
  const fullW = 300 + 60 * 20
  expect(energyUsed(bare, [{ dial: 10, seconds: 3600 }]).kWh).toBeCloseTo(fullW / 1000 / 0.74, 6)
  expect(energyUsed(bare, []).fromNameplate).toBe(false)
})

test('dialStretches lasts from each word to the next and to the end', () => {
  const notes = [
    { atMs: 0, dial: 10 },
    { atMs: 60_000, dial: 3 },
    { atMs: 180_000, dial: 0 },
  ]
  expect(dialStretches(notes, 150_000)).toEqual([
    { dial: 10, seconds: 60 },
    { dial: 3, seconds: 90 },
    { dial: 0, seconds: 0 },
  ])
})

test('a dial at 0 draws nothing', () => {
  expect(energyUsed(belief, [{ dial: 0, seconds: 36_000 }]).kWh).toBe(0)
})
