import { expect, test } from 'vitest'
import { cookedRecord } from '../../kit/cooked-record.ts'
import { HandClock } from '../../kit/hand-clock.ts'
import { labPot } from '../../kit/stove-lab.ts'
import { studioServer } from '../../kit/studio-server.ts'

test('readings that come late for an ended batch are learned from, too', async () => {
  const endedMs = Date.UTC(2026, 0, 10, 11)
  const folder = await cookedRecord(labPot(14, 'coil', 3), 1, endedMs)
  const server = await studioServer({ folder, clock: new HandClock(endedMs + 3_600_000) })
  await server.studio.burners.learn('heron')
  const before = server.studio.burners.page('heron').taught[0]!.lesson!
  // Between the readings on record, half a degree over them: the bridge was away and hands over what it kept.
  const range = { probe: 'heron', fromMs: endedMs - 9_000_000, toMs: endedMs - 3_000_000 }
  const known = await server.store.readings.trace(range, 200)
  const pack = known.map(([atMs, tempC]) => ({
    n: 'board/heron',
    u: 'Cel',
    t: atMs / 1000 + 3.5,
    v: tempC + 0.5,
  }))
  const { body } = await server.ask('POST', '/api/readings', pack)
  expect(body.stored).toBeGreaterThan(150)
  await expect
    .poll(async () => {
      await server.wait(5)
      await server.studio.burners.learn('heron')
      return server.studio.burners.page('heron').taught[0]!.lesson!.misfitC
    })
    .not.toBe(before.misfitC)
})
