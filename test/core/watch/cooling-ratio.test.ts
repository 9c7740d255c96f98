import { expect, test } from 'vitest'
import { learnFrom } from '#core/bath/learn'
import { guessPot } from '#core/bath/pot-belief'
import type { Lid } from '#core/bath/pot-model'
import { coolingOutcomes } from '#core/watch/stove'
import { evening, learningEvening } from '../../kit/stove-evening.ts'
import { labLossW, labPot, labStart } from '../../kit/stove-lab.ts'
import { DAY_MS, WatchDay, plan } from '../../kit/watch-day.ts'

const COOL = { kind: 'cool', id: 'cool', title: 'Cool', coolToC: 35, additives: [] } as const

/** Two hours of cooling from 75 °C with this lid, watched by somebody who has noted that it is on. */
function ratio(litres: number, seed: number, lid: Lid): number {
  const pot = labPot(litres, 'coil', seed)
  const belief = learnFrom(guessPot(pot.vessel), learningEvening(pot).trace).belief
  const { trace } = evening(pot, [{ dial: 0, lid, minutes: 120 }], labStart(pot, 75))
  const day = new WatchDay()
  day.pot('heron', '00:00', { vessel: pot.vessel, belief })
  day.batch('heron', '00:00', plan(COOL)).note('heron', '00:00', 'stage:cool lid:on')
  for (const { atMs, tempC } of trace.readings.filter((_, i) => i % 15 === 0))
    day.read('heron', DAY_MS + atMs, tempC)
  return coolingOutcomes(day.state, 'heron')[0]!.timesAsFast!
}

test.each([
  { litres: 14, seed: 3 },
  { litres: 30, seed: 8 },
])('a lidded pot of $litres L cools as fast as it was learned to', ({ litres, seed }) => {
  expect(Math.abs(ratio(litres, seed, 'on') - 1)).toBeLessThan(0.2)
})

test('a lid that is off all night though noted on is seen by how much faster the pot cools', () => {
  const pot = labPot(14, 'coil', 3)
  // The lab's own balance of heat, which the model does not share; half-way down an open pot stands at about 64 °C.
  const truth = labLossW(pot, 'off', 64) / labLossW(pot, 'on', 64)
  // From one and a half on the morning page has a line for it.
  expect(truth).toBeGreaterThan(1.5)
  expect(Math.abs(ratio(14, 3, 'off') / truth - 1)).toBeLessThan(0.2)
})
