import { expect, test } from 'vitest'
import { type ProbeCheck, startCheck, stepCheck } from '#core/measure/probe-check'
import type { Reading } from '#core/measure/reading'

const START_MS = 1_700_000_000_000

const reading = (s: number, rawC: number): Reading => ({
  kind: 'temp',
  probe: 'wren',
  atMs: START_MS + s * 1000,
  rawC,
  tempC: rawC,
  verdict: 'good',
})

const fault = (s: number): Reading => ({
  kind: 'fault',
  probe: 'wren',
  atMs: START_MS + s * 1000,
  fault: 'not-connected',
  found: '-127',
})

function through(start: ProbeCheck, readings: readonly Reading[]): ProbeCheck {
  return readings.reduce((check, r) => stepCheck(check, r), start)
}

/** A probe of lag 20 s that comes from 20 °C to `endC`, every second. */
const settling = (endC: number, seconds: number) =>
  Array.from({ length: seconds }, (_, s) => reading(s, endC + (20 - endC) * Math.exp(-s / 20)))

test('ice: it waits, then settles and keeps both values', () => {
  const check = through(startCheck('ice', 0, START_MS), settling(0.4, 300))
  expect(check).toMatchObject({ kind: 'settled', place: 'ice', expectedC: 0 })
  expect(check.kind === 'settled' ? check.rawC : NaN).toBeCloseTo(0.4, 1)
})

test('it says what keeps it waiting', () => {
  const waitsFor = (n: number) => {
    const check = through(startCheck('ice', 0, START_MS), settling(0.4, n))
    return check.kind === 'waiting' ? check.waitsFor : check.kind
  }
  expect(waitsFor(0)).toBe('readings')
  expect(waitsFor(60)).toBe('time')
  const slow = Array.from({ length: 200 }, (_, s) => reading(s, 20 - s * 0.01))
  expect(through(startCheck('reference', 19, START_MS), slow)).toMatchObject({ waitsFor: 'steadiness' })
})

test('a probe that reports every ten seconds settles too', () => {
  const readings = Array.from({ length: 40 }, (_, i) => reading(i * 10, 98.9 + (i % 2) * 0.0625))
  expect(through(startCheck('boiling', 99, START_MS), readings)).toMatchObject({ kind: 'settled' })
})

test('a check that settles far off is refused with what to look at', () => {
  const check = through(startCheck('ice', 0, START_MS), settling(8, 300))
  expect(check).toMatchObject({ kind: 'refused' })
  expect(check.kind === 'refused' ? check.why : '').toMatch(/settled at 8\.\d °C where 0\.0 °C.*packed ice/)
})

test('a reading that never stands still is given up after 15 min', () => {
  const readings = Array.from({ length: 1000 }, (_, s) => reading(s, s % 20 < 10 ? 0 : 1))
  expect(through(startCheck('ice', 0, START_MS), readings)).toMatchObject({ kind: 'refused' })
})

test('faults in a row end it, single ones do not', () => {
  const one = through(startCheck('ice', 0, START_MS), [reading(0, 1), fault(1), reading(2, 1), fault(3)])
  expect(one.kind).toBe('waiting')
  const many = through(startCheck('ice', 0, START_MS), [1, 2, 3, 4].map(fault))
  expect(many).toMatchObject({ kind: 'refused', why: expect.stringContaining('faults') })
})

test('readings of before the check, and after its end, change nothing', () => {
  const start = startCheck('ice', 0, START_MS)
  expect(stepCheck(start, reading(-5, 20))).toBe(start)
  const ended = through(start, settling(0.4, 300))
  expect(stepCheck(ended, reading(400, 50))).toBe(ended)
})
