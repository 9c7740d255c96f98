import { expect, test } from 'vitest'
import {
  type Lab,
  deltaE00,
  deltaEab,
  hexOfLab,
  labFromLinear,
  linearFromBytes,
  linearFromLab,
} from '#core/batch/colour'
import { changeDifference, gradeOfScore, scoreOfDeltaEF, stainingScore } from '#core/batch/grey-scale'
import { GREY_CARD, type Patch, photoColour } from '#core/batch/photo-colour'
import { CIEDE2000_PAIRS } from './ciede2000-pairs.ts'

/** `#rrggbb` by its bytes. */
const labOf = (hex: string): Lab => {
  const byte = (at: number) => Number.parseInt(hex.slice(at, at + 2), 16)
  return labFromLinear(linearFromBytes([byte(1), byte(3), byte(5)]))
}
const lab = ([lightness, a, b]: readonly [number, number, number]): Lab => ({ lightness, a, b })

test.each(CIEDE2000_PAIRS)('ΔE00 is %f between %j and %j, both ways', (expected, one, other) => {
  expect(deltaE00(lab(one), lab(other))).toBeCloseTo(expected, 4)
  expect(deltaE00(lab(other), lab(one))).toBeCloseTo(expected, 4)
})

test('the published pairs are all there', () => {
  expect(CIEDE2000_PAIRS.length).toBeGreaterThanOrEqual(34)
})

// The table of a widely used image library, rounded XYZ of the sRGB primaries (D65, 2°); tolerance 0.03.
test.each([
  ['#ff0000', [53.233, 80.109, 67.22]],
  ['#00ff00', [87.737, -86.185, 83.181]],
  ['#0000ff', [32.303, 79.197, -107.864]],
  ['#ffffff', [100, 0, 0]],
  ['#808080', [53.585, 0, 0]],
] as const)('%s is L*a*b* %j under D65', (hex, expected) => {
  const found = labOf(hex)
  expect(Math.abs(found.lightness - expected[0])).toBeLessThan(0.03)
  expect(Math.abs(found.a - expected[1])).toBeLessThan(0.03)
  expect(Math.abs(found.b - expected[2])).toBeLessThan(0.03)
})

// The same space computed by a second colour library: a grey and a blue between the primaries.
test.each([
  ['#c0c0c0', [77.7044, 0, 0]],
  ['#336699', [42.0092, -0.1459, -32.8451]],
] as const)('%s is L*a*b* %j under D65, as a second library has it', (hex, expected) => {
  const { lightness, a, b } = labOf(hex)
  for (const [i, found] of [lightness, a, b].entries())
    expect(Math.abs(found - expected[i]!)).toBeLessThan(0.03)
})

test('a colour goes to CIELAB and back to the same swatch', () => {
  for (const hex of ['#336699', '#c0c0c0', '#a0412d', '#010203']) expect(hexOfLab(labOf(hex))).toBe(hex)
})

test('bytes outside 0 to 255 are the caller’s mistake', () => {
  expect(() => linearFromBytes([0, 256, 0])).toThrow(RangeError)
  expect(() => linearFromBytes([Number.NaN, 0, 0])).toThrow(RangeError)
})

test('ΔE*ab of 1976 is the plain distance', () => {
  // A colour calculator on the web, as carried by a public-domain test file: 41.14608122288197.
  expect(deltaEab(lab([36, 60, 41]), lab([55, 66, 77]))).toBeCloseTo(41.146_081_222_881_97, 9)
})

// ISO 105-A02:1993: nominal differences of the grey scale's steps; the score of A05 gives the same grades there.
test.each([
  [0, '5'],
  [0.8, '4-5'],
  [1.7, '4'],
  [2.5, '3-4'],
  [3.4, '3'],
  [4.8, '2-3'],
  [6.8, '2'],
  [9.6, '1-2'],
  [13.6, '1'],
])('the nominal difference %f of the step %s has that grade by instrument, too', (deltaE, grade) => {
  expect(gradeOfScore(scoreOfDeltaEF(deltaE))).toBe(grade)
})

// ISO 105-A05:1996, section 8, at the nominal differences of A02: computed by hand from the printed formula.
test.each([
  [0, 5],
  [0.8, 4.53],
  [1.7, 4],
  [2.5, 3.53],
  [3.4, 3],
  [4.8, 2.5],
  [6.8, 2],
  [9.6, 1.5],
  [13.6, 1],
  [40, 1],
])('ΔE_F %f scores %f', (deltaEF, score) => {
  expect(scoreOfDeltaEF(deltaEF)).toBeCloseTo(score, 2)
})

test('a change of lightness alone counts in full, one of chroma in a strong colour counts less', () => {
  expect(changeDifference(lab([50, 0, 0]), lab([53.4, 0, 0]))).toBeCloseTo(3.4, 9)
  const strong = changeDifference(lab([50, 60, 0]), lab([50, 56.6, 0]))
  const weak = changeDifference(lab([50, 5, 0]), lab([50, 1.6, 0]))
  expect(strong).toBeLessThan(weak)
  expect(changeDifference(lab([50, 10, 10]), lab([50, 10, 10]))).toBe(0)
})

test('a turn of the hue alone counts almost in full, either way round', () => {
  // ISO 105-A05 by hand: ΔC* = 0, so ΔH* = √(10² + 10²) = 14.142, over 1 + (10 · 10 / 1000)² = 1.01.
  expect(changeDifference(lab([50, 10, 0]), lab([50, 0, 10]))).toBeCloseTo(14.002, 3)
  expect(changeDifference(lab([50, 0, 10]), lab([50, 10, 0]))).toBeCloseTo(14.002, 3)
})

test('staining: a cloth that stays clean scores 5, lightness counts in full', () => {
  expect(stainingScore(lab([92, 0, 2]), lab([92, 0, 2]))).toBe(5)
  // ISO 105-A04: with ΔL* alone ΔE_GS = ΔE*ab; 6.1 − 1.45 ln 10 = 2.76 (score formula from memory).
  expect(stainingScore(lab([90, 0, 0]), lab([80, 0, 0]))).toBeCloseTo(2.761, 3)
  // With ΔL* = 0, ΔE_GS = 0.6 ΔE*ab: 6.1 − 1.45 ln 6 = 3.50.
  expect(stainingScore(lab([90, 0, 0]), lab([90, 10, 0]))).toBeCloseTo(3.502, 3)
})

// ISO 105-A04, table of grades: 4.75 to 5 is 5, 4.25 to 4.74 is 4-5, under 1.25 is 1.
test.each([
  [5, '5'],
  [4.75, '5'],
  [4.74, '4-5'],
  [4.25, '4-5'],
  [4.24, '4'],
  [1.25, '1-2'],
  [1.24, '1'],
])('a score of %f is grade %s', (score, grade) => {
  expect(gradeOfScore(score)).toBe(grade)
})

const code = (v: number) => Math.round(255 * (v <= 0.003_130_8 ? 12.92 * v : 1.055 * v ** (1 / 2.4) - 0.055))

/** A patch as a camera saw it: each channel's light multiplied, then coded as sRGB bytes (IEC 61966-2-1). */
function seenUnder(light: readonly [number, number, number], truth: Lab): Patch {
  const { r, g, b } = linearFromLab(truth)
  return [[code(r * light[0]), code(g * light[1]), code(b * light[2])]]
}
const MADDER = lab([42, 38, 24])

test.each([
  ['daylight', [1, 1, 1]],
  ['a warm lamp', [1.25, 0.95, 0.6]],
  ['a blue sky, underexposed', [0.55, 0.7, 0.95]],
] as const)('a photo in %s gives the colour of the goods by the grey card', (_name, light) => {
  const found = photoColour(seenUnder(light, MADDER), [
    { seen: seenUnder(light, GREY_CARD), known: GREY_CARD },
  ])
  expect(found.ok && deltaE00(found.lab, MADDER)).toBeLessThan(1)
})

test('the reference swatch does the work of a grey card, and two known patches tell how well it fits', () => {
  const swatch = lab([45, 35, 20])
  const light = [1.2, 1, 0.7] as const
  const known = [
    { seen: seenUnder(light, GREY_CARD), known: GREY_CARD },
    { seen: seenUnder(light, swatch), known: swatch },
  ]
  const found = photoColour(seenUnder(light, MADDER), known)
  expect(found.ok && found.leftOver).toBeLessThan(1)
  const wrong = photoColour(seenUnder(light, MADDER), [
    known[0]!,
    { ...known[1]!, known: lab([70, -20, 40]) },
  ])
  expect(wrong.ok && wrong.leftOver).toBeGreaterThan(10)
})

test('a photo without a known patch, blown out, too dark or without pixels is refused in words', () => {
  const goods: Patch = [[120, 80, 60]]
  expect(photoColour(goods, [])).toMatchObject({ ok: false, why: expect.stringContaining('grey card') })
  const white: Patch = [[255, 250, 249]]
  expect(photoColour(goods, [{ seen: white, known: GREY_CARD }])).toMatchObject({ ok: false })
  expect(photoColour([[0, 1, 0]], [{ seen: goods, known: GREY_CARD }])).toMatchObject({
    why: expect.stringContaining('too dark'),
  })
  expect(photoColour([], [{ seen: goods, known: GREY_CARD }])).toMatchObject({ ok: false })
  // A deep red swatch alone: nothing tells how much blue the light had.
  const red: Patch = [[180, 20, 0]]
  expect(photoColour(goods, [{ seen: red, known: lab([40, 55, 45]) }])).toEqual({
    ok: false,
    why: 'the known patches show no red, no green or no blue at all; add a grey card',
  })
  expect(
    photoColour(goods, [
      { seen: red, known: lab([40, 55, 45]) },
      { seen: goods, known: GREY_CARD },
    ]),
  ).toMatchObject({ ok: true })
})

test('linear light and CIELAB are inverse', () => {
  const there = labFromLinear(linearFromLab(MADDER))
  expect(deltaE00(there, MADDER)).toBeLessThan(1e-6)
})
