import { expect, test } from 'vitest'
import { freshnessOf } from '../../../web/state/freshness.ts'
import { standingOf } from '../../../web/state/bath-standing.ts'
import { SILENCE_MS, stepPulseWatch } from '../../../web/state/pulse-watch.ts'
import { potAt, stageOf } from '../made-up.ts'

const NOW = Date.UTC(2026, 2, 3, 10)
const kind = (change: Parameters<typeof potAt>[1], ageMs = 0, silent = false) =>
  freshnessOf(potAt(NOW, change), NOW + ageMs, silent).kind

test('a reading is stale after three of its own periods, not at them', () => {
  expect(kind({ periodMs: 10_000 }, 30_000)).toBe('fresh')
  expect(kind({ periodMs: 10_000 }, 30_001)).toBe('stale')
})

test('a fast probe is not greyed for one late packet', () => {
  expect(kind({ periodMs: 200 }, 2_000)).toBe('fresh')
  expect(kind({ periodMs: 200 }, 4_001)).toBe('stale')
})

test('without an estimate, without a server or without a reading no bath looks good', () => {
  expect(kind({ tempC: null })).toBe('stale')
  expect(kind({}, 0, true)).toBe('stale')
  expect(kind({ lastReadingMs: null, lastReadingC: null })).toBe('none')
})

const inTheAir = (ageMs: number) =>
  freshnessOf(potAt(NOW, { tempC: null, lastReadingC: 21 }), NOW + ageMs, false)

test('a probe that reads the air is not called silent, and a silent one is', () => {
  expect(inTheAir(1_000)).toEqual({ kind: 'stale', lastC: 21, ageMs: null })
  expect(inTheAir(60_000)).toEqual({ kind: 'stale', lastC: 21, ageMs: 60_000 })
})

test('bounds of the window and the ceiling itself count as in', () => {
  const mordant = stageOf('mordant')
  const standing = (tempC: number) => standingOf(mordant, tempC)
  expect([79.99, 80, 86, 86.01, 90, 90.01].map(standing)).toEqual([
    'below',
    'in-window',
    'in-window',
    'above',
    'above',
    'over-ceiling',
  ])
  expect(standingOf(stageOf('cool'), 30)).toBe('cool-enough')
  expect(standingOf(null, 80)).toBe('no-window')
})

test('silence of the server is noticed at its limit, told within 6 s, and ends with a pulse', () => {
  const start = { heardMs: 0, silent: false }
  expect(stepPulseWatch(start, { kind: 'tick', atMs: SILENCE_MS - 1 }).silent).toBe(false)
  const silent = stepPulseWatch(start, { kind: 'tick', atMs: SILENCE_MS })
  expect(silent.silent).toBe(true)
  expect(SILENCE_MS + 500).toBeLessThan(6_000)
  const later = { heardMs: 60_000, silent: false }
  expect(stepPulseWatch(later, { kind: 'tick', atMs: 61_000 }).silent).toBe(false)
  expect(stepPulseWatch(later, { kind: 'tick', atMs: 60_000 + SILENCE_MS }).silent).toBe(true)
  expect(stepPulseWatch(silent, { kind: 'pulse', atMs: 9_000 })).toEqual({ heardMs: 9_000, silent: false })
})
