import { expect, test } from 'vitest'
import { traceSteps } from '#core/bath/pot-trace'

test('of two notes at one moment the later one in order counts', () => {
  const readings = Array.from({ length: 20 }, (_, i) => ({ atMs: i * 20_000, tempC: 20 + i / 10 }))
  // A dial that stood at 0 and was turned up the moment that the trace begins was once taken for off all along.
  const events = [0, 9].map((dial) => ({ atMs: 0, event: { kind: 'dial' as const, dial } }))
  expect(traceSteps({ readings, events }).at(-1)?.dial).toBe(9)
  expect(traceSteps({ readings, events: events.toReversed() }).at(-1)?.dial).toBe(0)
})
