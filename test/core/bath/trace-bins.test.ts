import { expect, test } from 'vitest'
import { binned, stepOf } from '#core/bath/trace-bins'
import { seeded } from '../../kit/seeded.ts'

const S = 1000

/** A bath seen every two seconds for so many minutes through a probe of such steps. */
function shown(minutes: number, stepC: number, trueC: (atMin: number) => number, noiseC = 0) {
  const random = seeded(7)
  return Array.from({ length: minutes * 30 }, (_, i) => {
    const tempC = trueC(i / 30) + random.normal(0, noiseC)
    return { atMs: i * 2 * S, tempC: Math.round(tempC / stepC) * stepC }
  })
}

const falling = (atMin: number) => 80.13 - 0.1 * atMin
const turning = (atMin: number) => 70.4 - 0.01 * (atMin - 15) ** 2

test('in the middle of a run of one coarse step, or where it changes, the bath stood at what is taken', () => {
  for (const cuts of [[], [20 * 60 * S]]) {
    const sharp = binned(shown(60, 0.5, falling), 0.5, cuts).filter(({ roughC }) => roughC < 0.02)
    // 6 °C are twelve steps.
    expect(sharp.length).toBeGreaterThan(11)
    for (const { atMs, tempC } of sharp) expect(Math.abs(tempC - falling(atMs / 60_000))).toBeLessThan(0.005)
  }
})

test('of a run that was cut, or left the way it came in, the change of step at its border is taken', () => {
  expect(binned(shown(30, 0.5, turning), 0.5, []).some(({ tempC }) => tempC === 70.5)).toBe(false)
  const cutMs = 20 * 60 * S
  const beside = binned(shown(60, 0.5, falling), 0.5, [cutMs]).filter(
    ({ atMs }) => Math.abs(atMs - cutMs) < 300 * S,
  )
  // The run at 78 °C is cut at 78.13: the changes at 78.25 and at 77.75 speak for it.
  expect(beside.map(({ tempC }) => tempC)).toEqual([78.5, 78.25, 77.75])
})

test('a bath that was seen too seldom to tell when it changed is rough', () => {
  const seldom = shown(60, 0.5, (atMin) => 20 + atMin).filter((_, i) => i % 30 === 0)
  const inside = binned(seldom, 0.5, []).slice(1, -1)
  // From one reading to the next it rose by 1 °C.
  for (const { roughC } of inside) expect(roughC).toBeCloseTo(1 / Math.sqrt(12), 10)
})

// A value that may lie anywhere within 0.5 °C with equal chance spreads by 0.5 / √12 °C.
test('a bath that stays within a step is only known to be there', () => {
  const still = binned(
    shown(30, 0.5, () => 70.1),
    0.5,
    [],
  )
  expect(still.length).toBeGreaterThan(2)
  for (const { tempC, roughC } of still) expect([tempC, roughC]).toEqual([70, 0.5 / Math.sqrt(12)])
})

test('steps that the noise averages out are not rough, and means are no longer than need be', () => {
  const bins = binned(
    shown(30, 0.1, (atMin) => 60 + 0.02 * atMin, 0.08),
    0.1,
    [],
  )
  expect(bins.filter(({ roughC }) => roughC > 0.01).length).toBeLessThan(bins.length / 10)
  expect(bins.length).toBeGreaterThan(70)
})

test('no readings, no means; one reading is its own mean', () => {
  expect(binned([], 0, [])).toEqual([])
  expect(binned([{ atMs: 5, tempC: 20 }], 0, [])).toEqual([{ atMs: 5, tempC: 20, roughC: 0 }])
})

test('the steps of a probe are found from its changes', () => {
  expect(stepOf(shown(60, 0.5, (atMin) => 80 - 0.3 * atMin))).toBe(0.5)
  expect(stepOf(shown(60, 0.0625, (atMin) => 80 - 0.3 * atMin, 0.04))).toBe(0.0625)
  expect(stepOf(shown(5, 0.5, () => 20))).toBe(0)
})
