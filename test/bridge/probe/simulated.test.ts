import { expect, test } from 'vitest'
import { openSimulated } from '../../../bridge/probe/simulated.ts'
import { recordedRows } from '../../../bridge/probe/recorded.ts'
import { fakeWorld, Listener } from '../../kit/fake-world.ts'
import { settingsOf } from '../../kit/settings-of.ts'

const VESSEL = { litres: 9, diameterCm: 24, emptyKg: 1.8, burner: { kind: 'coil', dialMax: 6, ratedW: 1500 } }

function lived(more: object, s: number): Listener {
  const world = fakeWorld()
  const sink = new Listener()
  const source = openSimulated(settingsOf('simulated', { vessel: VESSEL, ...more }), sink, world)
  world.clock.advance(s * 1000)
  void source.close()
  return sink
}

const temps = (sink: Listener) => sink.samples.flatMap((s) => (s.kind === 'temp' ? [s.rawC] : []))

test('a simulated pot heats when its script turns the dial, and is the same for the same seed', () => {
  const script = [{ atS: 60, dial: 6 }]
  const first = lived({ script }, 600)
  expect(first.samples).toHaveLength(601)
  expect(temps(first)[50]).toBeCloseTo(20, 0)
  expect(temps(first).at(-1)).toBeGreaterThan(24)
  expect(lived({ script }, 600).heard).toEqual(first.heard)
  expect(lived({ script, seed: 2 }, 600).heard).not.toEqual(first.heard)
})

test('its probe can be pulled, unplugged and put back', () => {
  const script = [
    { atS: 10, probe: 'out' },
    { atS: 40, probe: 'unplugged' },
    { atS: 50, probe: 'in' },
  ]
  const sink = lived({ startC: 80, script }, 120)
  const at = (s: number) => sink.samples.find((x) => x.atMs === sink.samples[0]!.atMs + s * 1000)
  expect(at(45)).toBeUndefined()
  expect(at(39)).toMatchObject({ kind: 'temp' })
  expect(temps(sink)[38]!).toBeLessThan(70)
  expect(temps(sink).at(-1)).toBeGreaterThan(78)
})

test('a faster life passes in less time', () => {
  const script = [{ atS: 0, dial: 6 }]
  const slow = temps(lived({ script, noiseC: 0 }, 600)).at(-1)!
  const fast = temps(lived({ script, noiseC: 0, speed: 10 }, 60)).at(-1)!
  expect(fast).toBeCloseTo(slow, 0)
})

test('a recorded trace keeps its distances, in °C or °F, and sorts its rows', () => {
  const rows = recordedRows(
    'time,temp_f,event\n2026-03-12T08:00:10Z,176,\n2026-03-12T08:00:00Z,140,lid:on\n2026-03-12T08:00:05Z,,stir\n',
    'day.csv',
  )
  expect(rows).toEqual([
    { afterS: 0, rawC: 60 },
    { afterS: 10, rawC: 80 },
  ])
  expect(recordedRows('a,b\n1,2\n', 'day.csv')).toMatch(/^day.csv: line 1: the header is/)
})
