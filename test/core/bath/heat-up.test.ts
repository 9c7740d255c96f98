import { expect, test } from 'vitest'
import { holdDial } from '#core/bath/advise'
import { courseC } from '#core/bath/course'
import { forecastBath, reachesS } from '#core/bath/forecast'
import { coldPot, planHeatUp } from '#core/bath/heat-up'
import { observeRate } from '#core/bath/observe'
import { guessPot } from '#core/bath/pot-belief'
import { lossW, potModel, powerW, stepModel, tuned } from '#core/bath/pot-model'

const VESSEL = {
  litres: 15,
  diameterCm: 30,
  emptyKg: 3,
  surroundingsC: 20,
  burner: { kind: 'coil', dialMax: 10, ratedW: 2000 },
} as const
const BELIEF = guessPot(VESSEL)
const POT = tuned(potModel(VESSEL), BELIEF.mean)
const STANDING = { lid: 'on', roomC: 20 } as const

// By the arithmetic of the handbooks, without losses: 15 L and 3 kg of steel from 20 to 90 °C take
// 4386.8 + 105.0 kJ; at 2 kW × 74 % that is 50.6 min. Losses and the coil's lag make it later, never sooner.
test('a pot heats no faster than its heat capacities allow', () => {
  const path = courseC(POT, coldPot(POT, 20), { dial: 10, ...STANDING }, { untilS: 7200, stepS: 60 })
  const minutes = path.findIndex((tempC) => tempC >= 90)
  expect(minutes).toBeGreaterThanOrEqual(51)
  expect(minutes).toBeLessThan(60)
})

// Course notebooks on first-order-plus-dead-time models: after a heater of an integrating process is cut, the rise
// goes on at the old slope for the dead time, so the overshoot is about dead time × slope.
test('a bath coasts on by about the lag of the element times its rate', () => {
  const vessel = { ...VESSEL, burner: { kind: 'plate', dialMax: 10, ratedW: 2000 } } as const
  const pot = tuned(potModel(vessel), guessPot(vessel).mean)
  let now = coldPot(pot, 20)
  const heating = { intoW: powerW(pot, 10), ...STANDING }
  for (let s = 0; s < 1500; s += 20) now = stepModel(pot, heating, now, 20)
  const rateCPerS = (now.heatW - lossW(pot, 'on', 20, now.waterC)) / now.capacityJPerC
  const after = courseC(pot, now, { dial: 0, ...STANDING }, { untilS: 3600, stepS: 20 })
  const coastC = Math.max(...after) - now.waterC
  expect(coastC / (rateCPerS * pot.elementLagS)).toBeGreaterThan(0.7)
  expect(coastC / (rateCPerS * pot.elementLagS)).toBeLessThan(1.05)
})

test('the whole step of a minute is the sum of six of ten seconds', () => {
  const setting = { intoW: 900, ...STANDING }
  const start = { ...coldPot(POT, 60), heatW: 300 }
  let small = start
  for (let i = 0; i < 6; i++) small = stepModel(POT, setting, small, 10)
  const large = stepModel(POT, setting, start, 60)
  expect(large.waterC).toBeCloseTo(small.waterC, 3)
  expect(large.heatW).toBeCloseTo(small.heatW, 6)
  expect(large.probeC).toBeCloseTo(small.probeC, 1)
})

test('the bath stays at the boiling point of its altitude', () => {
  const high = tuned(potModel({ ...VESSEL, altitudeM: 2000 }), BELIEF.mean)
  const path = courseC(high, coldPot(high, 85), { dial: 10, ...STANDING }, { untilS: 7200, stepS: 60 })
  // US Standard Atmosphere and IAPWS-IF97 together: 93.32 °C at 2000 m.
  expect(Math.abs(Math.max(...path) - 93.32)).toBeLessThan(0.05)
})

test('planHeatUp turns down early enough that the bath lands on the target', () => {
  const hold = holdDial(BELIEF, 70, STANDING)!.value
  const plan = planHeatUp(BELIEF, coldPot(POT, 20), 70, { heat: 10, hold }, STANDING)!
  expect(plan.turnDownAtC).toBeLessThan(70)
  expect(plan.turnDownAtC).toBeGreaterThan(60)
  expect(plan.peakC).toBeGreaterThanOrEqual(70)
  expect(plan.peakC).toBeLessThan(71.5)
  expect(plan.toTargetS! / 60).toBeGreaterThan(30)
  expect(plan.toTargetS! / 60).toBeLessThan(60)
})

test('planHeatUp has no plan when the burner never gets there', () => {
  expect(planHeatUp(BELIEF, coldPot(POT, 20), 70, { heat: 0.3, hold: 0.3 }, STANDING)).toBeNull()
})

test('a change that is planned for later shows in the course', () => {
  const acts = [{ afterS: 630, dial: 0 }]
  const path = courseC(POT, coldPot(POT, 20), { dial: 10, ...STANDING, acts }, { untilS: 3600, stepS: 60 })
  const left = courseC(POT, coldPot(POT, 20), { dial: 10, ...STANDING }, { untilS: 3600, stepS: 60 })
  expect(path).toHaveLength(61)
  expect(path[10]).toBe(left[10])
  expect(path[60]!).toBeLessThan(left[60]! - 20)
})

test('the band of a forecast widens with time and holds the mean', () => {
  const points = forecastBath(
    BELIEF,
    { waterC: 40, rateCPerMin: 1 },
    { dial: 10, ...STANDING },
    { untilS: 3600, stepS: 60 },
  )
  const widths = points.map((p) => p.high90C - p.low90C)
  expect(widths[0]!).toBeCloseTo(2 * 1.645 * 0.15, 6)
  expect(widths[30]!).toBeGreaterThan(widths[5]!)
  for (const p of points) expect(p.high90C).toBeGreaterThan(p.tempC)
})

test('the present rate corrects a guess about the burner', () => {
  const bath = { waterC: 50, rateCPerMin: 0.7 }
  const course = { dial: 10, ...STANDING }
  const corrected = tuned(potModel(VESSEL), observeRate(BELIEF, bath, course).mean)
  const rate = (60 * (powerW(corrected, 10) - lossW(corrected, 'on', 20, 50))) / corrected.capacityJPerC
  expect(rate).toBeCloseTo(0.7, 1)
})

test('reachesS finds the crossing between two steps, from below and from above', () => {
  const points = [{ afterS: 0 }, { afterS: 60 }, { afterS: 120 }]
  expect(reachesS(points, [60, 64, 68], 65)).toBeCloseTo(75)
  expect(reachesS(points, [68, 64, 60], 65)).toBeCloseTo(45)
  expect(reachesS(points, [60, 61, 62], 65)).toBeNull()
  expect(reachesS(points, [65, 66, 67], 65)).toBe(0)
  expect(reachesS([], [], 65)).toBeNull()
})

// The mean of the greater of two numbers, one of them uncertain, is more than the greater of their means (Jensen).
test('the peak to expect is higher where the dial that holds is less known, and never under the coasting', () => {
  const known = (factor: number) => ({
    ...BELIEF,
    traces: 1,
    covariance: BELIEF.covariance.map((row) => row.map((value) => value * factor)),
  })
  const hold = holdDial(BELIEF, 70, STANDING)!.value
  const peak = (factor: number) =>
    planHeatUp(known(factor), coldPot(POT, 20), 70, { heat: 10, hold }, STANDING)!.peakC
  const coasting = planHeatUp(BELIEF, coldPot(POT, 20), 70, { heat: 10, hold }, STANDING)!.peakC
  expect(peak(1e-9)).toBeCloseTo(coasting, 3)
  expect(peak(0.01)).toBeGreaterThan(coasting)
  expect(peak(0.02)).toBeGreaterThan(peak(0.01))
})
