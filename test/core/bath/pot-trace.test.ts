import { expect, test } from 'vitest'
import { believable } from '#core/bath/believable'
import type { PotReading } from '#core/bath/pot-reading'
import { type PotEvent, traceSteps } from '#core/bath/pot-trace'

const S = 1000
const flat = (count: number, tempC: number, fromS = 0): PotReading[] =>
  Array.from({ length: count }, (_, i) => ({ atMs: (fromS + i) * S, tempC }))
const at = (seconds: number, event: PotEvent) => ({ atMs: seconds * S, event })

test('the steps of a trace add up to its time and carry the dial and the lid as noted', () => {
  const steps = traceSteps({
    readings: flat(1200, 50).map(({ atMs }, i) => ({ atMs, tempC: 50 + i / 1000 })),
    events: [at(0, { kind: 'dial', dial: 7 }), at(600, { kind: 'lid', lid: 'off' })],
  })
  const total = steps.reduce((sum, step) => sum + step.dtS, 0)
  // From the middle of the first five seconds to the middle of the last mean of twenty.
  expect(total).toBeCloseTo(1189.5 - 2, 0)
  expect(steps.every((step) => step.dtS === 0 || step.dial === 7)).toBe(true)
  const open = steps.filter((step) => step.lid === 'off').reduce((sum, step) => sum + step.dtS, 0)
  expect(Math.abs(open - 590)).toBeLessThan(2)
})

test('after a change the model begins anew, once', () => {
  const steps = traceSteps({ readings: flat(600, 50), events: [at(300, { kind: 'dial', dial: 3 })] })
  expect(steps.filter((step) => step.anew)).toHaveLength(2)
})

test('readings do not count while goods and bath settle', () => {
  const steps = traceSteps({ readings: flat(900, 50), events: [at(300, { kind: 'goods-in' })] })
  let seconds = 0
  const counted = steps.flatMap((step) => {
    seconds += step.dtS
    return step.observedC === null ? [] : [seconds]
  })
  expect(counted.filter((s) => s > 300 && s < 470)).toEqual([])
  expect(counted.some((s) => s > 480)).toBe(true)
  expect(steps.at(-1)!.goodsIn).toBe(true)
})

test('words after the last reading and a trace without readings are harmless', () => {
  expect(traceSteps({ readings: [], events: [at(0, { kind: 'end' })] })).toEqual([])
  const steps = traceSteps({ readings: flat(60, 20), events: [at(900, { kind: 'dial', dial: 9 })] })
  expect(steps.every((step) => step.dial === 0)).toBe(true)
})

test('a long day has at most some hundred steps', () => {
  const steps = traceSteps({ readings: flat(43_200, 60), events: [] })
  expect(steps.length).toBeLessThan(600)
})

test('believable leaves out a start-up value and a probe on the bench, and takes them back at a new level', () => {
  const spike = [...flat(10, 79.5), { atMs: 10 * S, tempC: 85 }, ...flat(10, 79.5, 11)]
  expect(believable(spike).map((r) => r.tempC)).not.toContain(85)
  expect(believable(spike)).toHaveLength(20)
  const poured = [...flat(10, 80), ...flat(900, 65, 10)]
  const kept = believable(poured)
  expect(kept.filter((r) => r.tempC === 65).length).toBeGreaterThan(200)
  expect(kept.find((r) => r.tempC === 65)!.atMs).toBeLessThanOrEqual(620 * S)
})

test('of two notes at one moment the later one in order counts', () => {
  const readings = Array.from({ length: 20 }, (_, i) => ({ atMs: i * 20_000, tempC: 20 + i / 10 }))
  // A dial that stood at 0 and was turned up the moment that the trace begins was once taken for off all along.
  const events = [0, 9].map((dial) => ({ atMs: 0, event: { kind: 'dial' as const, dial } }))
  expect(traceSteps({ readings, events }).at(-1)?.dial).toBe(9)
  expect(traceSteps({ readings, events: events.toReversed() }).at(-1)?.dial).toBe(0)
})

// Heat at full from the first reading on: a mean over a longer first time would begin late and make the heat look prompt.
test('the model begins with the first readings, not with a mean over a minute of them', () => {
  const readings = Array.from({ length: 1200 }, (_, i) => ({
    atMs: i * 3 * S,
    tempC: 15 + Math.max(0, i - 40) * 0.03,
  }))
  const steps = traceSteps({ readings, events: [at(0, { kind: 'dial', dial: 10 })] })
  const first = steps.findIndex((step) => step.observedC !== null)
  expect(steps.slice(0, first + 1).reduce((sum, step) => sum + step.dtS, 0)).toBeLessThan(3)
})

test('no mean lies across a word of the dyer', () => {
  const readings = Array.from({ length: 600 }, (_, i) => ({ atMs: i * S, tempC: i < 307 ? 50 : 51 }))
  const steps = traceSteps({ readings, events: [at(307, { kind: 'lid', lid: 'off' })] })
  expect(steps.every((step) => step.observedC === null || [50, 51].includes(step.observedC))).toBe(true)
})
