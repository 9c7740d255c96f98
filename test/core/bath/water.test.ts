import { expect, test } from 'vitest'
import {
  airPressurePa,
  boilingAtPaC,
  boilingC,
  densityKgPerM3,
  heatCapacityJPerKgC,
  latentHeatJPerKg,
  saturationPa,
} from '#core/bath/water'

// IAPWS-IF97, table 35 (temperature → pressure) and table 36 (pressure → temperature).
test('saturationPa and boilingAtPaC give the check values of IAPWS-IF97', () => {
  expect(saturationPa(300 - 273.15) / 0.353658941e4).toBeCloseTo(1, 7)
  expect(saturationPa(500 - 273.15) / 0.263889776e7).toBeCloseTo(1, 7)
  expect(saturationPa(600 - 273.15) / 0.123443146e8).toBeCloseTo(1, 7)
  expect(boilingAtPaC(1e5)).toBeCloseTo(372.755919 - 273.15, 5)
  expect(boilingAtPaC(1e6)).toBeCloseTo(453.035632 - 273.15, 5)
  expect(boilingAtPaC(1e7)).toBeCloseTo(584.149488 - 273.15, 5)
})

test('water boils at 99.974 °C under one standard atmosphere', () => {
  expect(boilingAtPaC(101_325)).toBeCloseTo(99.974, 3)
})

// Computed with the IAPWS-IF97 reference implementation at 101.325 kPa; latent heat at saturation.
const IF97: readonly (readonly [tempC: number, density: number, cp: number, latentKJ: number])[] = [
  [10, 999.7, 4.195, 2477.2],
  [20, 998.21, 4.185, 2453.6],
  [40, 992.22, 4.179, 2406],
  [60, 983.21, 4.183, 2357.7],
  [80, 971.8, 4.196, 2308.1],
  [90, 965.32, 4.205, 2282.6],
  [99.97, 958.37, 4.217, 2256.5],
]
test('density, heat capacity and latent heat follow the steam tables', () => {
  for (const [tempC, density, cp, latentKJ] of IF97) {
    expect(Math.abs(densityKgPerM3(tempC) - density)).toBeLessThan(0.02)
    expect(Math.abs(heatCapacityJPerKgC(tempC) / 1000 - cp)).toBeLessThan(0.0013)
    expect(Math.abs(latentHeatJPerKg(tempC) / 1000 - latentKJ)).toBeLessThan(0.2)
  }
})

// An enthalpy difference of the same tables.
test('the heat capacity sums up to the tabled rise in enthalpy from 20 to 90 °C', () => {
  let sum = 0
  for (let tempC = 20.05; tempC < 90; tempC += 0.1) sum += heatCapacityJPerKgC(tempC) * 0.1
  expect(Math.abs(sum / 1000 - 292.98)).toBeLessThan(0.15)
})

// US Standard Atmosphere 1976, geopotential heights.
test('airPressurePa gives the rows of the US Standard Atmosphere', () => {
  const rows = [
    [500, 95_460.8],
    [1000, 89_874.6],
    [1500, 84_556],
    [2000, 79_495.2],
  ] as const
  for (const [altitudeM, pressurePa] of rows)
    expect(Math.abs(airPressurePa(altitudeM) - pressurePa)).toBeLessThan(0.2)
})

// The two standards above, combined by their reference implementations.
test('boilingC falls with altitude as the two standards together say', () => {
  const rows = [
    [0, 99.97],
    [250, 99.14],
    [500, 98.31],
    [1000, 96.65],
    [1500, 94.98],
    [2500, 91.65],
    [4000, 86.62],
  ] as const
  for (const [altitudeM, tempC] of rows) expect(Math.abs(boilingC(altitudeM) - tempC)).toBeLessThan(0.05)
})
