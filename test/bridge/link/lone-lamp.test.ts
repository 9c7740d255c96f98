import { expect, test } from 'vitest'
import { openLoneLamp } from '../../../bridge/link/lone-lamp.ts'
import { frozenBroker } from '../../kit/frozen-broker.ts'
import { HandClock } from '../../kit/hand-clock.ts'
import { until } from '../../kit/until.ts'

test('the bridge lets go of a broker that takes nothing any more', async () => {
  const frozen = await frozenBroker()
  const clock = new HandClock()
  const lamp = openLoneLamp({ url: frozen.url }, 'holdfast-test', clock)
  await until(() => frozen.connected() === 1)
  lamp.show('heron', 4, 'Heron is over its ceiling')
  lamp.end()
  expect(frozen.connected()).toBe(1)
  clock.advance(1000)
  await until(() => frozen.connected() === 0)
})
