import { expect, test } from 'vitest'
import { RHYTHMS, renderRhythm } from '../../../web/device/rhythms.ts'

const RATE = 8_000
const loud = (samples: Float32Array) => Math.sqrt(samples.reduce((sum, v) => sum + v * v, 0) / samples.length)

test.each(Object.entries(RHYTHMS))(
  '%s can be heard, is never clipped and has no click at its edges',
  (_, rhythm) => {
    const samples = renderRhythm(rhythm, RATE)
    expect(samples).toHaveLength(Math.ceil(rhythm.lengthS * RATE))
    expect(loud(samples)).toBeGreaterThan(0.1)
    expect(Math.max(...samples.map(Math.abs))).toBeLessThanOrEqual(1)
    expect(Math.abs(samples.at(0) ?? 1)).toBeLessThan(0.05)
    expect(Math.abs(samples.at(-1) ?? 1)).toBeLessThan(0.05)
  },
)

const pace = (name: keyof typeof RHYTHMS) => RHYTHMS[name].notes.length / RHYTHMS[name].lengthS

test('the more pressing sound has more notes a second', () => {
  expect(pace('at-once')).toBeGreaterThan(2 * pace('soon'))
  expect(pace('soon')).toBeGreaterThan(pace('notice'))
})

test('every note is long enough to be heard as a note: over 100 ms', () => {
  const lengths = Object.values(RHYTHMS).flatMap((rhythm) => rhythm.notes.map((note) => note.lengthS))
  expect(Math.min(...lengths)).toBeGreaterThan(0.1)
})
