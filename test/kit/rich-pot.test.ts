import { expect, test } from 'vitest'
import { RichPot } from './rich-pot.ts'

/** Hours to fall from 82 to 60 °C in a 20 °C room. */
function coolingHours(litres: number, lid: 'on' | 'off'): number {
  const pot = new RichPot({ litres, burner: 'coil', seed: 7, startC: 82 })
  let s = 0
  while (pot.step(2, 0, lid, 20).meanC > 60) s += 2
  return s / 3600
}

// The trade notes' table of cool-downs, real pots ±40 %: 10 L 2.9/1.1 h, 20 L 3.6/1.4 h, 40 L 4.4/1.9 h.
test('a rich pot cools about as the trade notes say, with the lid and without', () => {
  for (const [litres, lidH, openH] of [
    [10, 2.9, 1.1],
    [20, 3.6, 1.4],
    [40, 4.4, 1.9],
  ] as const) {
    expect(coolingHours(litres, 'on') / lidH).toBeGreaterThan(0.6)
    expect(coolingHours(litres, 'on') / lidH).toBeLessThan(1.4)
    expect(coolingHours(litres, 'off') / openH).toBeGreaterThan(0.6)
    expect(coolingHours(litres, 'off') / openH).toBeLessThan(1.4)
  }
})

test('the same seed makes the same day', () => {
  expect(readings(3)).toEqual(readings(3))
  expect(readings(3)).not.toEqual(readings(4))
})

function readings(seed: number): readonly number[] {
  const pot = new RichPot({ litres: 20, burner: 'plate', seed })
  return Array.from({ length: 300 }, () => pot.step(1, 0.6, 'on', 19).readingC)
}
