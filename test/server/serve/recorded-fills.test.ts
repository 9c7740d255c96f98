import { expect, test } from 'vitest'
import { loadDay } from '../../../server/serve/heat/load-day.ts'
import { recordedFills } from '../../../server/serve/heat/recorded-fills.ts'
import { cookedRecord } from '../../kit/cooked-record.ts'
import { HandClock } from '../../kit/hand-clock.ts'
import { labPot } from '../../kit/stove-lab.ts'
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
