import { expect, test } from 'vitest'
import { innovations, rootMeanSquare } from '#core/bath/wander'
import { judgeNoise } from '#core/bath/miss-noise'
import { seeded } from '../../kit/seeded.ts'

const ALONE = { trembleC: 0.1, wander: 1 }

test('misses that wander as told come out independent and of unit variance', () => {
  const random = seeded(4)
  let walkedC = 0
  const misses = Array.from({ length: 4000 }, (_, i) => {
    walkedC += random.normal(0, 0.1)
    return { missC: walkedC + random.normal(0, 0.05), wanderC2: i === 0 ? null : 0.01 }
  })
  const found = innovations(misses, { trembleC: 0.05, wander: 1 })
  expect(rootMeanSquare(found)).toBeCloseTo(1, 1)
  const together = found.slice(1).reduce((sum, z, i) => sum + z * found[i]!, 0) / found.length
  expect(Math.abs(together)).toBeLessThan(0.05)
})

// The filter of one constant level seen n times through noise is the mean: its last gain is 1 ÷ n.
test('without wandering every miss is judged against the mean of those before it', () => {
  const misses = [1, 2, 3].map((missC, i) => ({ missC, wanderC2: i === 0 ? null : 0 }))
  const [, second, third] = innovations(misses, { trembleC: 1, wander: 1 })
  // Level after the first: 1 · 1/2 (prior variance 1); after the second (1 + 2)/3.
  expect(second).toBeCloseTo(1.5 / Math.sqrt(1.5), 10)
  expect(third).toBeCloseTo(2 / Math.sqrt(4 / 3), 10)
})

test('where the model begins anew, what was before is forgotten', () => {
  const alone = innovations([{ missC: 0.3, wanderC2: null }], ALONE)
  const after = innovations(
    [
      { missC: 9, wanderC2: null },
      { missC: 0.3, wanderC2: null },
    ],
    ALONE,
  )
  expect(after[1]).toBe(alone[0])
})

test('nothing missed is nothing', () => {
  expect(innovations([], ALONE)).toEqual([])
  expect(rootMeanSquare([])).toBe(0)
})

/** Misses of a bath that wanders by `perStepC` and a probe that trembles by `trembleC`, told to wander by 0.1 °C. */
function missesOf(perStepC: number, trembleC: number, seed: number) {
  const random = seeded(seed)
  let walkedC = 0
  return Array.from({ length: 600 }, (_, i) => {
    walkedC += random.normal(0, perStepC)
    return { missC: walkedC + random.normal(0, trembleC), wanderC2: i === 0 ? null : 0.01 }
  })
}

test('how much a bath wanders and a probe trembles is found from the misses, each by itself', () => {
  for (const [perStepC, trembleC] of [
    [0.1, 0.05],
    [0.05, 0.05],
    [0.2, 0.05],
    [0.1, 0.2],
  ] as const) {
    const found = judgeNoise(missesOf(perStepC, trembleC, 7), { trembleC: 0.05, wander: 1 }, (z) => z)
    // What is tried lies a factor of up to 1.45 apart.
    expect(found.wander / (perStepC / 0.1)).toBeGreaterThan(0.69)
    expect(found.wander / (perStepC / 0.1)).toBeLessThan(1.45)
    expect(found.trembleC / trembleC).toBeGreaterThan(0.69)
    expect(found.trembleC / trembleC).toBeLessThan(1.45)
  }
})

test('too few misses leave the noise as it was expected', () => {
  expect(judgeNoise([], { trembleC: 0.06, wander: 1 }, (z) => z).wander).toBe(1)
})
