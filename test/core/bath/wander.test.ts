import { expect, test } from 'vitest'
import { innovations, rootMeanSquare } from '#core/bath/wander'
import { seeded } from '../../kit/seeded.ts'

test('misses that wander as told come out independent and of unit variance', () => {
  const random = seeded(4)
  let walkedC = 0
  const misses = Array.from({ length: 4000 }, (_, i) => {
    walkedC += random.normal(0, 0.1)
    return { missC: walkedC + random.normal(0, 0.05), wanderC2: i === 0 ? null : 0.01 }
  })
  const found = innovations(misses, 0.05)
  expect(rootMeanSquare(found)).toBeCloseTo(1, 1)
  const together = found.slice(1).reduce((sum, z, i) => sum + z * found[i]!, 0) / found.length
  expect(Math.abs(together)).toBeLessThan(0.05)
})

// The filter of one constant level seen n times through noise is the mean: its last gain is 1 ÷ n.
test('without wandering every miss is judged against the mean of those before it', () => {
  const misses = [1, 2, 3].map((missC, i) => ({ missC, wanderC2: i === 0 ? null : 0 }))
  const [, second, third] = innovations(misses, 1)
  // Level after the first: 1 · 1/2 (prior variance 1); after the second (1 + 2)/3.
  expect(second).toBeCloseTo(1.5 / Math.sqrt(1.5), 10)
  expect(third).toBeCloseTo(2 / Math.sqrt(4 / 3), 10)
})

test('where the model begins anew, what was before is forgotten', () => {
  const alone = innovations([{ missC: 0.3, wanderC2: null }], 0.1)
  const after = innovations(
    [
      { missC: 9, wanderC2: null },
      { missC: 0.3, wanderC2: null },
    ],
    0.1,
  )
  expect(after[1]).toBe(alone[0])
})

test('nothing missed is nothing', () => {
  expect(innovations([], 0.1)).toEqual([])
  expect(rootMeanSquare([])).toBe(0)
})
