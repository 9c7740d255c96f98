import { expect, test } from 'vitest'
import type { ForecastRecord } from '#core/wire/burner'
import { cookedRecord, ROOT_PLAN } from '../../kit/cooked-record.ts'
import { HandClock } from '../../kit/hand-clock.ts'
import { labPot } from '../../kit/stove-lab.ts'
import { type StudioServer, studioServer } from '../../kit/studio-server.ts'

const VESSEL = { litres: 12, surroundingsC: 18, burner: { kind: 'coil', dialMax: 10, ratedW: 2000 } }

/** Half-minute steps of the clock with a reading after each. */
async function heat(server: StudioServer, tempsC: readonly number[]): Promise<void> {
  for (const tempC of tempsC) {
    await server.wait(29)
    await server.feed('heron', tempC)
  }
}

test('what the page foretells live is kept once, not each second, and held to what came', async () => {
  const server = await studioServer()
  await server.feed('heron', 38, 38, 38)
  await server.ask('POST', '/api/pots', { title: 'Heron', vessel: VESSEL, probe: 'urn:heron' })
  const { id: planId } = (await server.ask('POST', '/api/plans', ROOT_PLAN)).body
  const { id } = (await server.ask('POST', '/api/batches', { title: 'Marl', planId })).body
  const note = (event: string) => server.ask('POST', `/api/batches/${id}/events`, { event })
  await server.ask('POST', `/api/batches/${id}/stages/dye/start`, { potId: 'heron', probe: 'urn:heron' })
  await note('dial:10')
  const fromMs = server.clock.nowMs()
  // 2 °C a minute: 66 °C after 14 minutes.
  await heat(
    server,
    Array.from({ length: 31 }, (_, i) => 39 + i),
  )
  const told = await server.store.heat.told('heron', 0, server.clock.nowMs())
  const window = told.filter((t) => t.kind === 'window')
  expect(window.length).toBeGreaterThan(0)
  expect(window.length).toBeLessThan(6)
  expect(window.every((t) => t.fromTraces === 0 && t.stageId === 'dye' && t.madeMs >= fromMs)).toBe(true)
  await server.ask('POST', `/api/batches/${id}/events`, { event: 'end' })
  await server.studio.burners.learn('heron')
  const { record } = (await server.ask('GET', '/api/pots/heron/burner')).body
  const held: readonly ForecastRecord[] = record.filter((r: ForecastRecord) => r.kind === 'window')
  expect(held.map((r) => [r.told, r.madeMs])).toEqual(window.map((t) => [t.told, t.madeMs]).toReversed())
  for (const r of held) {
    expect([r.source, r.isGuess]).toEqual(['live', true])
    expect(Math.abs(r.came - (fromMs + 14 * 60_000))).toBeLessThan(90_000)
  }
})

test('a note that is taken back is unlearned: the burner stands as if it had never been made', async () => {
  const endedMs = Date.UTC(2026, 0, 10, 11)
  const folder = await cookedRecord(labPot(14, 'coil', 3), 1, endedMs)
  const server = await studioServer({ folder, clock: new HandClock(endedMs + 3_600_000) })
  await server.studio.burners.learn('heron')
  const dials = async () => (await server.ask('GET', '/api/pots/heron/burner')).body.dials
  const before = await dials()
  const atMs = (await server.store.events.ofBatch(1))[0]!.atMs + 20 * 60_000
  const { body } = await server.ask('POST', '/api/batches/1/events', { event: 'dial:3', atMs })
  await expect.poll(dials).not.toEqual(before)
  await server.ask('POST', `/api/batches/1/events/${body.id}/strike`, {})
  await expect.poll(dials).toEqual(before)
})
