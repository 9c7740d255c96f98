import { expect, test } from 'vitest'
import { studioServer } from '../../kit/studio-server.ts'

const PLAN = {
  title: 'Cool down',
  stages: [{ id: 'cool', title: 'Cool', kind: 'cool', coolToC: 35 }],
}

/** The hand clock of the server stands at 08:00 UTC on 10 January 2026. */
const tomorrow = (clock: string) => Date.parse(`2026-01-11T${clock}Z`)

test('the alarm clock of the settings stands until another is said at bedtime, also after a restart', async () => {
  const server = await studioServer({ settings: { wakeAt: '07:00' } })
  expect((await server.ask('GET', '/api/wake')).body).toEqual({
    wakeAt: '07:00',
    liftC: 40,
    wakeMs: tomorrow('07:00'),
  })
  const said = await server.ask('PUT', '/api/wake', { wakeAt: '06:30', liftC: 38 })
  expect(said.body).toEqual({ wakeAt: '06:30', liftC: 38, wakeMs: tomorrow('06:30') })
  await server.stop()
  const again = await studioServer({ folder: server.folder, clock: server.clock })
  expect((await again.ask('GET', '/api/wake')).body.wakeAt).toBe('06:30')
  expect((await again.ask('PUT', '/api/wake', { wakeAt: null })).body).toEqual({
    wakeAt: null,
    liftC: 38,
    wakeMs: null,
  })
  const wrong = await again.ask('PUT', '/api/wake', { wakeAt: '25:00' })
  expect([wrong.status, wrong.body.detail]).toEqual([400, expect.stringContaining('06:30')])
})

test('a bath that cools is held against the alarm clock on the stove and on the morning page', async () => {
  const server = await studioServer({ settings: { wakeAt: '23:00' } })
  await server.feed('heron', 50, 50, 50)
  const vessel = { litres: 12, surroundingsC: 18, burner: { dialMax: 10 } }
  await server.ask('POST', '/api/pots', { title: 'Heron', vessel, probe: 'urn:heron' })
  const { id: planId } = (await server.ask('POST', '/api/plans', PLAN)).body
  const { id } = (await server.ask('POST', '/api/batches', { title: 'Marl', planId })).body
  await server.ask('POST', `/api/batches/${id}/stages/cool/start`, { potId: 'heron', probe: 'urn:heron' })
  await server.feed('heron', 50, 50, 50, 50, 50)
  const lift = async () => (await server.ask('GET', '/api/stove')).body.pots[0].lift
  // Twelve litres at 50 °C in a room of 18 °C are down to 40 °C within fifteen hours, lidded or open.
  expect(await lift()).toMatchObject({ verdict: 'before', lid: 'on', liftC: 40 })
  const { items } = (await server.ask('GET', '/api/morning')).body
  expect(items.find((item: { kind: string }) => item.kind === 'cooled').text).toMatch(
    /^Heron \(Marl\): not yet down to 35\.0 °C\. Now 50\.0 °C\. Under 40 °C at .+: before your 23:00\.$/,
  )
  await server.ask('PUT', '/api/wake', { wakeAt: '08:10' })
  expect((await lift()).verdict).toBe('not-before')
  await server.ask('PUT', '/api/wake', { wakeAt: null })
  expect(await lift()).toBe(null)
})
