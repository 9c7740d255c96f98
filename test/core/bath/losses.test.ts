import { expect, test } from 'vitest'
import {
  airAt,
  calmRoom,
  evaporationWPerM2,
  plateConvectionWPerM2,
  radiationWPerM2,
  rayleigh,
  wallConvectionWPerM2,
} from '#core/bath/losses'

const off = (found: number, expected: number) => Math.abs(found / expected - 1)
const celsius = (f: number) => ((f - 32) * 5) / 9
const FEET = 0.3048

// Çengel, Heat and Mass Transfer, plate 0.6 × 0.6 m at 90 °C in air of 30 °C (values from memory, reproduced by
// hand): film 60 °C k 0.02808, ν 1.896e-5, Pr 0.7202; vertical 115 W, facing up 128 W; radiation 182 W for ε = 1.
test('convection and radiation give the worked example of a hot plate', () => {
  const film = airAt(60)
  expect(off(film.conductivity, 0.02808)).toBeLessThan(0.03)
  expect(off(film.viscosityM2PerS, 1.896e-5)).toBeLessThan(0.01)
  expect(off(film.prandtl, 0.7202)).toBeLessThan(0.03)
  expect(off(0.36 * wallConvectionWPerM2(90, 30, 0.6), 115)).toBeLessThan(0.04)
  expect(off(0.36 * plateConvectionWPerM2(90, 30, 0.15), 128)).toBeLessThan(0.04)
  expect(off(0.36 * radiationWPerM2(90, 30, 1), 182)).toBeLessThan(0.01)
})

// Çengel, problem 9-19E: a plate of 2 ft at 130 °F in air of 75 °F, Ra 5.503e8, Nu 102.6.
test('the Rayleigh and Nusselt numbers of a warm wall are those of the textbook problem', () => {
  const [hotC, airC, heightM] = [celsius(130), celsius(75), 2 * FEET]
  expect(off(rayleigh(hotC, airC, heightM), 5.503e8)).toBeLessThan(0.04)
  const conductivity = airAt((hotC + airC) / 2).conductivity
  expect(
    off((wallConvectionWPerM2(hotC, airC, heightM) * heightM) / conductivity / (hotC - airC), 102.6),
  ).toBeLessThan(0.02)
})

// Incropera, example 9.2 (from memory, reproduced by hand): 0.71 × 1.02 m at 232 °C in 23 °C, convection 1060 W,
// radiation 2355 W for ε = 1.
test('convection and radiation give the worked example of a fire screen', () => {
  const areaM2 = 0.71 * 1.02
  expect(off(areaM2 * wallConvectionWPerM2(232, 23, 0.71), 1060)).toBeLessThan(0.05)
  expect(off(areaM2 * radiationWPerM2(232, 23, 1), 2355)).toBeLessThan(0.01)
})

// US DOE, Steam Tip Sheet 19: heat loss of open vessels in dry still air, Btu/(h ft²), by liquid and air in °F. Its
// column of 65 °F is what the handbook below has for evaporation alone (244 and 240, 479 and 480, 889 and 860).
const TANKS: readonly (readonly [liquidF: number, btu: readonly number[]])[] = [
  [110, [244, 222, 200, 177, 152]],
  [130, [479, 452, 425, 397, 369]],
  [150, [889, 856, 822, 788, 754]],
  [170, [1608, 1566, 1524, 1482, 1440]],
]
test('an open hot tank steams away what the tip sheet of the US DOE says, within 20 %', () => {
  for (const [liquidF, row] of TANKS)
    for (const [i, btu] of row.entries()) {
      const evaporation = evaporationWPerM2(celsius(liquidF), calmRoom(celsius(65 + 10 * i)))
      expect(off(evaporation, btu * 3.15459)).toBeLessThan(0.2)
    }
})

// The handbook table for still air of 60 °F, evaporation alone, Btu/(h ft²); it calls itself rough. Its first row, 80
// at 90 °F, is half of the second, while the vapour's overpressure falls by a third: no law meets both.
test('evaporation follows the handbook table from 100 to 210 °F within 20 %', () => {
  const rows = [
    [100, 160],
    [110, 240],
    [120, 360],
    [130, 480],
    [140, 660],
    [150, 860],
    [160, 1100],
    [170, 1380],
    [180, 1740],
    [190, 2160],
    [200, 2680],
    [210, 3240],
  ] as const
  for (const [liquidF, btu] of rows)
    expect(off(evaporationWPerM2(celsius(liquidF), calmRoom(celsius(60))), btu * 3.15459)).toBeLessThan(0.2)
})

test('evaporation stops when the air is wetter than the surface', () => {
  expect(evaporationWPerM2(15, { airC: 30, humidity01: 0.9 })).toBe(0)
})
