import { expect, test } from 'vitest'
import { thermocoupleC, thermocoupleMv } from '#core/measure/thermocouple'

const TEMPS_C = [0, 10, 20, 25, 30, 40, 50, 60, 70, 80, 85, 90, 95, 100, 110, 120, 130, 140, 150]

// ITS-90 tables (NIST SRD 60 = IEC 60584-1 = ASTM E230), mV, three decimals.
const TABLE = {
  K: [
    0, 0.397, 0.798, 1.0, 1.203, 1.612, 2.023, 2.436, 2.851, 3.267, 3.474, 3.682, 3.889, 4.096, 4.509, 4.92,
    5.328, 5.735, 6.138,
  ],
  T: [
    0, 0.391, 0.79, 0.992, 1.196, 1.612, 2.036, 2.468, 2.909, 3.358, 3.585, 3.814, 4.046, 4.279, 4.75, 5.228,
    5.714, 6.206, 6.704,
  ],
} as const

test.each(['K', 'T'] as const)('type %s follows its table both ways', (type) => {
  for (const [i, tempC] of TEMPS_C.entries()) {
    expect(Math.abs(thermocoupleMv(type, tempC) - TABLE[type][i]!)).toBeLessThanOrEqual(0.0006)
    // Half of the last digit is 0.0125 °C at 0.04 mV a degree.
    expect(Math.abs(thermocoupleC(type, TABLE[type][i]!, 0) - tempC)).toBeLessThanOrEqual(0.015)
  }
})

// Published single values: a maker's reference page gives K(350) and T(350), a university page the type T differences.
test('far values and differences agree with published ones', () => {
  expect(thermocoupleMv('K', 350)).toBeCloseTo(14.293, 3)
  expect(thermocoupleMv('T', 350)).toBeCloseTo(17.819, 3)
  expect(thermocoupleMv('T', 0) - thermocoupleMv('T', 22)).toBeCloseTo(-0.8703, 4)
  expect(thermocoupleMv('T', 10) - thermocoupleMv('T', 22)).toBeCloseTo(-0.4793, 4)
  expect(thermocoupleMv('T', 20) - thermocoupleMv('T', 22)).toBeCloseTo(-0.0807, 4)
})

// Below zero, ITS-90 tables from memory: K(−20) = −0.778, T(−20) = −0.757 mV.
test('a terminal in frost is taken off too', () => {
  expect(thermocoupleMv('K', -20)).toBeCloseTo(-0.778, 3)
  expect(thermocoupleMv('T', -20)).toBeCloseTo(-0.757, 3)
})

// Hot end 85 °C, terminals 22 °C: 3.4744 − 0.8789 = 2.5955 mV by the reference function.
test('the cold junction is added as a voltage, not as a temperature', () => {
  expect(thermocoupleC('K', 2.5955, 22)).toBeCloseTo(85, 2)
  const asTemperature = thermocoupleC('K', 2.5955, 0) + 22
  expect(Math.abs(asTemperature - 85)).toBeGreaterThan(0.5)
})

test('an open circuit at full scale is no temperature', () => {
  for (const millivolts of [100, -100, NaN]) expect(thermocoupleC('K', millivolts, 22)).toBeNaN()
})
