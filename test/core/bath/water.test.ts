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
  [25, 997.05, 4.182, 2441.7],
  [30, 995.65, 4.18, 2429.8],
  [40, 992.22, 4.179, 2406],
  [50, 988.05, 4.18, 2382],
  [60, 983.21, 4.183, 2357.7],
  [70, 977.78, 4.188, 2333.1],
  [80, 971.8, 4.196, 2308.1],
  [85, 968.62, 4.2, 2295.4],
  [90, 965.32, 4.205, 2282.6],
  [95, 961.9, 4.211, 2269.6],
  [99.97, 958.37, 4.217, 2256.5],
]
test('density, heat capacity and latent heat follow the steam tables', () => {
  for (const [tempC, density, cp, latentKJ] of IF97) {
    expect(Math.abs(densityKgPerM3(tempC) - density)).toBeLessThan(0.02)
    expect(Math.abs(heatCapacityJPerKgC(tempC) / 1000 - cp)).toBeLessThan(0.0013)
    expect(Math.abs(latentHeatJPerKg(tempC) / 1000 - latentKJ)).toBeLessThan(0.2)
  }
})

// Enthalpy differences of the same tables, kJ/kg.
test.each([
  [20, 90, 292.98],
  [15, 85, 292.9],
  [20, 80, 250.98],
  [15, 99.97, 355.91],
])('the heat capacity sums up to the tabled rise in enthalpy from %f to %f °C', (fromC, toC, riseKJ) => {
  const steps = 1000
  const stepC = (toC - fromC) / steps
  const parts = Array.from(
    { length: steps },
    (_, i) => heatCapacityJPerKgC(fromC + (i + 0.5) * stepC) * stepC,
  )
  expect(Math.abs(parts.reduce((sum, part) => sum + part, 0) / 1000 - riseKJ)).toBeLessThan(0.15)
})

// The same tables: 15 litres filled in at 20 °C are 14.973 kg.
test('a fill is weighed by the density of its own temperature', () => {
  expect(0.015 * densityKgPerM3(20)).toBeCloseTo(14.973, 3)
})

// IAPWS-IF97, equations 30 and 31, by its reference implementation: kPa and °C.
test('saturation pressure and boiling point follow the line over the whole range of a bath', () => {
  const pressures = [
    [20, 2.3392],
    [25, 3.1698],
    [40, 7.3844],
    [50, 12.3513],
    [60, 19.946],
    [70, 31.201],
    [80, 47.415],
    [90, 70.182],
    [95, 84.609],
    [100, 101.418],
  ] as const
  for (const [tempC, kPa] of pressures) expect(saturationPa(tempC) / 1000 / kPa).toBeCloseTo(1, 4)
  const boils = [
    [60, 85.926],
    [70, 89.932],
    [80, 93.485],
    [85, 95.125],
    [90, 96.687],
    [95, 98.178],
    [100, 99.606],
    [105, 100.976],
  ] as const
  for (const [kPa, tempC] of boils) expect(Math.abs(boilingAtPaC(1000 * kPa) - tempC)).toBeLessThan(0.0006)
})

// Weather of ±3 kPa near the sea moves the boiling point by +0.82 and −0.84 °C (the same line).
test('weather moves the boiling point by most of a degree either way', () => {
  expect(boilingAtPaC(104_325) - boilingAtPaC(101_325)).toBeCloseTo(0.82, 2)
  expect(boilingAtPaC(98_325) - boilingAtPaC(101_325)).toBeCloseTo(-0.84, 2)
})

// US Standard Atmosphere 1976, geopotential heights.
test('airPressurePa gives the rows of the US Standard Atmosphere', () => {
  const rows = [
    [500, 95_460.8],
    [1000, 89_874.6],
    [1200, 87_715.6],
    [1500, 84_556],
    [1800, 81_489.2],
    [2000, 79_495.2],
    [2500, 74_682.5],
    [3000, 70_108.5],
    [4000, 61_640.2],
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
    [2000, 93.32],
    [2500, 91.65],
    [3000, 89.97],
    [4000, 86.62],
  ] as const
  for (const [altitudeM, tempC] of rows) expect(Math.abs(boilingC(altitudeM) - tempC)).toBeLessThan(0.05)
})
