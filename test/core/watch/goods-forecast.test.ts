import { expect, test } from 'vitest'
import { guessPot } from '#core/bath/pot-belief'
import { potForecast } from '#core/watch/stove'
import { WatchDay, at, hold, plan } from '../../kit/watch-day.ts'

const VESSEL = { litres: 20, surroundingsC: 18, burner: { kind: 'coil', dialMax: 10, ratedW: 2000 } } as const

/** Half a degree a minute up to 50 °C at 13:00; the goods went in when the stage began, or never. */
function reaches(goods: 'goods-in' | 'goods-out'): number {
  const day = new WatchDay()
    .pot('heron', '11:59', { vessel: VESSEL, belief: guessPot(VESSEL) })
    .batch('heron', '11:59', plan(hold({ windowC: [66, 72], ceilingC: 78 })))
    .note('heron', '12:00', `stage:dye lid:on ${goods}`)
    .line('heron', [
      ['12:00', 20],
      ['12:55', 47.5],
    ])
    .note('heron', '12:55', 'dial:10')
    .line('heron', [
      ['12:55', 47.5],
      ['13:00', 50],
    ])
  return potForecast(day.state, 'heron', at('13:00'))!.reachesWindowMs! - at('13:00')
}

test('wet goods make the way to the window longer, as the pot then holds more heat', () => {
  // The same heat into 6 % more: the rate, and so the time, follows the heat capacity (the rule of the kettle).
  const ratio = reaches('goods-in') / reaches('goods-out')
  expect(ratio).toBeGreaterThan(1.03)
  expect(ratio).toBeLessThan(1.09)
})
