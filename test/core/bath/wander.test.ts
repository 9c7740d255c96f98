import { expect, test } from 'vitest'
import { judgeNoise } from '#core/bath/miss-noise'
import { innovations, LASTS_MIN, type Miss, rootMeanSquare } from '#core/bath/wander'
import { seeded } from '../../kit/seeded.ts'

const BEGINS = { kind: 'begins', roughC: 0 } as const
const ALONE = { trembleC: 0.1, sway: 1 }

/**
 * Misses a minute apart of a bath carried off at a rate that comes and goes (stepped finely here, by another way than
 * the filter's) and of a probe that trembles; they tell a sway of 0.02 °C a minute.
 */
function missesOf(swayCPerMin: number, trembleC: number, count = 2000): readonly Miss[] {
  const random = seeded(4)
  let rate = random.normal(0, swayCPerMin)
  let offC = 0
  return Array.from({ length: count }, (_, i) => {
    for (let k = 0; k < 20; k++) {
      offC += i === 0 ? 0 : rate / 20
      rate += -rate / LASTS_MIN / 20 + random.normal(0, swayCPerMin * Math.sqrt(2 / LASTS_MIN / 20))
    }
    return {
      missC: offC + random.normal(0, trembleC),
      since: i === 0 ? BEGINS : { kind: 'sways' as const, minutes: 1, swayCPerMin: 0.02 },
    }
  })
}

test('misses that sway as told come out independent and of unit variance', () => {
  const found = innovations(missesOf(0.02, 0.05), { trembleC: 0.05, sway: 1 })
  expect(rootMeanSquare(found)).toBeCloseTo(1, 1)
  const together = found.slice(1).reduce((sum, z, i) => sum + z * found[i]!, 0) / found.length
  expect(Math.abs(together)).toBeLessThan(0.05)
})

// The filter of one constant level seen n times through noise is the mean: its last gain is 1 ÷ n.
test('without sway every miss is judged against the mean of those before it', () => {
  const misses = [1, 2, 3].map((missC, i) => ({
    missC,
    since: i === 0 ? BEGINS : { kind: 'sways' as const, minutes: 1, swayCPerMin: 0 },
  }))
  const [, second, third] = innovations(misses, { trembleC: 1, sway: 1 })
  // Level after the first: 1 · 1/2 (prior variance 1); after the second (1 + 2)/3.
  expect(second).toBeCloseTo(1.5 / Math.sqrt(1.5), 10)
  expect(third).toBeCloseTo(2 / Math.sqrt(4 / 3), 10)
})

test('where the model begins anew, what was before is forgotten', () => {
  const alone = innovations([{ missC: 0.3, since: BEGINS }], ALONE)
  const after = innovations(
    [
      { missC: 9, since: BEGINS },
      { missC: 0.3, since: BEGINS },
    ],
    ALONE,
  )
  expect(after[1]).toBe(alone[0])
})

test('nothing missed is nothing', () => {
  expect(innovations([], ALONE)).toEqual([])
  expect(rootMeanSquare([])).toBe(0)
})

test('how much a bath sways and a probe trembles is found from the misses, each by itself', () => {
  for (const [swayCPerMin, trembleC] of [
    [0.02, 0.05],
    [0.01, 0.05],
    [0.04, 0.05],
    [0.02, 0.2],
  ] as const) {
    const found = judgeNoise(missesOf(swayCPerMin, trembleC, 600), { trembleC: 0.05, sway: 1 }, (z) => z)
    // What is tried lies a factor of up to 1.45 apart.
    expect(found.sway / (swayCPerMin / 0.02)).toBeGreaterThan(0.69)
    expect(found.sway / (swayCPerMin / 0.02)).toBeLessThan(1.45)
    expect(found.trembleC / trembleC).toBeGreaterThan(0.69)
    expect(found.trembleC / trembleC).toBeLessThan(1.45)
  }
})

test('without a miss the noise stays as it was expected', () => {
  expect(judgeNoise([], ALONE, (z) => z)).toEqual(ALONE)
})

// A mean of values of variances 1 and 1 + 3 weighs them 4 : 1.
test('a rough reading weighs as little as its variance says', () => {
  const rough = Math.sqrt(3)
  const misses: readonly Miss[] = [
    { missC: 1, roughC: rough, since: BEGINS },
    { missC: 0, since: { kind: 'sways', minutes: 1, swayCPerMin: 0 } },
  ]
  // Prior variance 1 against 4: a fifth of the first miss is believed, and 4/5 of the variance is left.
  expect(innovations(misses, { trembleC: 1, sway: 1 })[1]).toBeCloseTo(-0.2 / Math.sqrt(1.8), 10)
  // Begun from a rough reading the level is known by 1 + 3 only.
  const begun: readonly Miss[] = [{ missC: 1, since: { kind: 'begins', roughC: rough } }]
  expect(innovations(begun, { trembleC: 1, sway: 1 })[0]).toBeCloseTo(1 / Math.sqrt(5), 10)
})
