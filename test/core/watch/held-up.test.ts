import { describe, expect, test } from 'vitest'
import { learnFrom } from '#core/bath/learn'
import { type PotBelief, guessPot } from '#core/bath/pot-belief'
import type { Lid } from '#core/bath/pot-model'
import { evening, learningEvening } from '../../kit/stove-evening.ts'
import { type LabPot, labHoldDial, labPot, labStart } from '../../kit/stove-lab.ts'
import { DAY_MS, WatchDay, plan } from '../../kit/watch-day.ts'

const COOL = { kind: 'cool', id: 'cool', title: 'Cool', coolToC: 35, additives: [] } as const

/** Minutes until `not-cooling` in a cool-down from 75 °C with this dial on under the pot; nobody notes it. */
function calledMin(pot: LabPot, belief: PotBelief | undefined, dial: number, lid: Lid): number | null {
  const { trace } = evening(pot, [{ dial, lid, minutes: 90 }], labStart(pot, 75))
  const day = new WatchDay()
  day.pot('heron', '00:00', { vessel: pot.vessel, ...(belief === undefined ? {} : { belief }) })
  day.batch('heron', '00:00', plan(COOL)).note('heron', '00:00', 'stage:cool')
  for (const { atMs, tempC } of trace.readings.filter((_, i) => i % 5 === 0))
    day.read('heron', DAY_MS + atMs, tempC)
  const raised = day.alarms('not-cooling').find((a) => a.change === 'raised')
  return raised === undefined ? null : (raised.atMs - DAY_MS) / 60_000
}

// The lab's own balance of heat says which dial would hold the bath at 70 °C in the end; the rules do not know it.
describe.each([
  { litres: 14, seed: 3 },
  { litres: 30, seed: 8 },
])('a learned pot of $litres L', ({ litres, seed }) => {
  const pot = labPot(litres, 'coil', seed)
  const belief = learnFrom(guessPot(pot.vessel), learningEvening(pot).trace).belief
  const low = labHoldDial(pot, 'on', 70)!

  test('that falls slowly over a low burner is not cooling, and that is seen within 40 minutes', () => {
    const min = calledMin(pot, belief, low, 'on')
    expect(min).not.toBeNull()
    expect(min!).toBeLessThanOrEqual(40)
  })

  test.each(['on', 'off'] as const)('that cools with its lid %s and no heat is left alone', (lid) => {
    expect(calledMin(pot, belief, 0, lid)).toBeNull()
  })
})
