import { expect, test } from 'vitest'
import type { BurnerPage } from '#core/wire/burner'
import { loadDay } from '../../../server/serve/heat/load-day.ts'
import { recordedFills } from '../../../server/serve/heat/recorded-fills.ts'
import { cookedRecord } from '../../kit/cooked-record.ts'
import { HandClock } from '../../kit/hand-clock.ts'
import { labPot, labSteadyC } from '../../kit/stove-lab.ts'
import { studioServer } from '../../kit/studio-server.ts'

test('a lid that was noted with other water says nothing of the next fill', async () => {
  const pot = labPot(14, 'coil', 3)
  const endedMs = Date.UTC(2026, 0, 10, 11)
  const folder = await cookedRecord(pot, 2, endedMs)
  const { store } = await studioServer({ folder, clock: new HandClock(endedMs + 3_600_000) })
  const [first, second] = await recordedFills(store, 'heron', 'heron')
  for (const { id, event } of await store.events.ofBatch(second!.batchId!))
    if (event.kind === 'lid') await store.events.strike(id, endedMs, null)
  const lidsOf = async () =>
    (await loadDay(
      store,
      'heron',
      (await recordedFills(store, 'heron', 'heron'))[1]!,
      pot.vessel,
    ))!.trace.events
      .map(({ event }) => event)
      .filter(({ kind }) => kind === 'lid')
  const note = (atMs: number) =>
    store.events.add({
      atMs,
      notedMs: atMs,
      potId: 'heron',
      batchId: null,
      stageId: null,
      event: { kind: 'lid', lid: 'off' },
      who: null,
    })
  await note(first!.toMs - 60_000)
  expect(await lidsOf()).toEqual([])
  await note(second!.fromMs - 60_000)
  expect(await lidsOf()).toEqual([{ kind: 'lid', lid: 'off' }])
})

const wattsAt = (body: Pick<BurnerPage, 'dials'>, dial: number) =>
  body.dials.find((d) => d.dial === dial)!.watts.value

test('the water that the record gives for a batch is what its trace is learned with', async () => {
  const pot = labPot(14, 'coil', 3)
  const endedMs = Date.UTC(2026, 0, 10, 11)
  const folder = await cookedRecord(pot, 1, endedMs)
  const server = await studioServer({ folder, clock: new HandClock(endedMs + 3_600_000) })
  await server.studio.burners.learn('heron')
  const page = async () => (await server.ask('GET', '/api/pots/heron/burner')).body
  const before = await page()
  expect(before.traces[0].litres).toBe(pot.vessel.litres)
  const line = { kind: 'water', body: { litres: pot.vessel.litres / 2 }, who: null, replaces: null }
  expect((await server.ask('POST', '/api/batches/1/entries', line)).status).toBe(201)
  await expect.poll(async () => (await page()).traces[0].litres).toBe(pot.vessel.litres / 2)
  // Half the water that came up as fast took about half the heat: the arithmetic of the kettle.
  const ratio = wattsAt(await page(), 9) / wattsAt(before, 9)
  expect(ratio).toBeGreaterThan(0.45)
  expect(ratio).toBeLessThan(0.65)
})

test('where nobody noted a lid a pot that does not steam like an open one is taken for a lidded one', async () => {
  const pot = labPot(14, 'coil', 3)
  const endedMs = Date.UTC(2026, 0, 10, 11)
  const folder = await cookedRecord(pot, 2, endedMs)
  const server = await studioServer({ folder, clock: new HandClock(endedMs + 3_600_000) })
  for (const id of [1, 2])
    for (const note of await server.store.events.ofBatch(id))
      if (note.event.kind === 'lid') await server.store.events.strike(note.id, endedMs, null)
  await server.studio.burners.learn('heron', 0)
  const { traces, dials } = (await server.ask('GET', '/api/pots/heron/burner')).body
  expect(traces.map((t: { lid: string }) => t.lid)).toEqual(['judged-on', 'judged-on'])
  const three = dials.find((d: { dial: number }) => d.dial === 3)
  expect(Math.abs(three.steadyLidOnC.value - labSteadyC(pot, 'on', 3))).toBeLessThan(3)
})
