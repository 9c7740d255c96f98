import { expect, test, vi } from 'vitest'
import type { AlarmRecord } from '#core/wire/records'
import { heronInMordant, type StudioServer, studioServer } from '../../kit/studio-server.ts'

/** A hold that passed its ceiling once with everybody watching; then the bridge was away for ten minutes, till the end. */
async function endedWithAGap(server: StudioServer) {
  const batchId = await heronInMordant(server)
  for (let tempC = 75.5; tempC <= 92; tempC += 0.5) await server.feed('heron', tempC)
  await server.feed('heron', ...Array<number>(20).fill(92))
  for (let tempC = 91.8; tempC >= 84; tempC -= 0.2) await server.feed('heron', tempC)
  await server.feed('heron', ...Array<number>(120).fill(84))
  const fromMs = server.clock.nowMs()
  await server.wait(600)
  await server.ask('POST', `/api/batches/${batchId}/events`, { event: 'end' })
  return { batchId, fromMs }
}

/** What the bridge had kept: 600 s, and for 100 of them over the ceiling of 90 °C. */
const kept = (fromMs: number) =>
  Array.from({ length: 599 }, (_, s) => ({
    ...(s === 0 ? { bn: 'urn:heron', bu: 'Cel', bt: fromMs / 1000 } : {}),
    t: s + 0.5,
    v: s > 200 && s < 300 ? 91.5 : 84 + (s % 2) / 10,
  }))

async function rowsOf(server: StudioServer, batchId: number) {
  const { alarms } = (await server.ask('GET', `/api/batches/${batchId}`)).body
  return (alarms as AlarmRecord[]).filter((a) => a.alarm === 'above-ceiling')
}

const openIds = async (server: StudioServer) =>
  (await server.ask('GET', '/api/stove')).body.alarms.map((a: { alarmId: number }) => a.alarmId)

test('readings that come late for an ended batch put the alarms in them on record, once, and call nobody', async () => {
  const server = await studioServer()
  const { batchId, fromMs } = await endedWithAGap(server)
  expect(await rowsOf(server, batchId)).toMatchObject([{ foundLate: false }])
  const told = await server.store.messages.lastId()
  const open = await openIds(server)
  await server.ask('POST', '/api/readings', kept(fromMs))
  await server.wait(4)
  await vi.waitFor(async () => expect(await rowsOf(server, batchId)).toHaveLength(2), { timeout: 5000 })
  const rows = await rowsOf(server, batchId)
  const late = rows.find((row) => row.foundLate)!
  expect(late).toMatchObject({ state: 'normal', stageId: 'mordant', batchId, limitC: 90 })
  expect(late.text).toMatch(/^Heron \(Two skeins\): /)
  // Over from 201 to 299 s, on-delay 5 s, cleared 60 s after it was 0.5 °C under (the table of docs/watch.md).
  expect((late.sinceMs - fromMs) / 1000).toBeCloseTo(201, -1)
  expect((late.clearedMs! - fromMs) / 1000).toBeCloseTo(360, -2)
  expect(await server.store.messages.lastId()).toBe(told)
  expect(await openIds(server)).toEqual(open)

  // A reading more for the same hour: what is on record is not put there twice.
  await server.ask('POST', '/api/readings', [
    { n: 'urn:heron', u: 'Cel', t: fromMs / 1000 + 250.25, v: 91.5 },
  ])
  await server.wait(4)
  await expect.poll(async () => (await rowsOf(server, batchId)).length).toBe(2)
  expect(
    (await server.ask('GET', `/api/batches/${batchId}`)).body.stages[0].outcome.bins.aboveCeilingS,
  ).toBeGreaterThan(90)
})
