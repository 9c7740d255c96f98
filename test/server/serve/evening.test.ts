import { expect, test } from 'vitest'
import { type StudioServer, studioServer } from '../../kit/studio-server.ts'

const VESSEL = { litres: 12, surroundingsC: 18, burner: { kind: 'coil', dialMax: 10, ratedW: 2000 } }

async function heron(server: StudioServer): Promise<void> {
  await server.feed('heron', 16, 16, 16)
  await server.ask('POST', '/api/pots', { title: 'Heron', vessel: VESSEL, probe: 'urn:heron' })
  await server.feed('heron', 16, 16, 16)
}

/** Half-minute steps of the clock with a reading after each. */
async function heat(server: StudioServer, tempsC: readonly number[]): Promise<void> {
  for (const tempC of tempsC) {
    await server.wait(29)
    await server.feed('heron', tempC)
  }
  await server.wait(10)
}

const note = (server: StudioServer, event: string) => server.ask('POST', '/api/pots/heron/events', { event })
const look = async (server: StudioServer) => (await server.ask('GET', '/api/pots/heron/evening')).body
const rising = (fromC: number, toC: number, perStepC: number) =>
  Array.from({ length: Math.round((toC - fromC) / perStepC) }, (_, i) => fromC + (i + 1) * perStepC)

test('the evening says what to set and waits until that is noted', async () => {
  const server = await studioServer()
  await heron(server)
  expect((await look(server)).cannot).toBe(null)
  const begun = (await server.ask('POST', '/api/pots/heron/evening')).body
  expect(begun.running).toMatchObject({
    step: 'full',
    set: { dial: 10, lid: 'on' },
    isSet: false,
    stepsDone: 0,
  })
  await heat(server, [16, 16, 16, 16])
  expect((await look(server)).running.leftMin).toBeGreaterThan(89)
  const shown = async () => (await server.ask('GET', '/api/stove')).body.pots[0].evening
  expect(await shown()).toEqual({ step: 'full', dial: 10, lid: 'on', isSet: false })
  await note(server, 'dial:10')
  await heat(server, rising(16, 68, 0.8))
  expect((await look(server)).running).toMatchObject({ step: 'full', isSet: true })
  await heat(server, [69, 70.5])
  const next = (await look(server)).running
  expect(next).toMatchObject({ step: 'middle', set: { dial: 3.5, lid: 'on' }, isSet: false, stepsDone: 1 })
  expect((await server.ask('POST', '/api/pots/heron/evening')).status).toBe(409)
})

test('an evening survives a restart, and ended early it still counts as a trace', async () => {
  const server = await studioServer()
  await heron(server)
  await server.ask('POST', '/api/pots/heron/evening')
  await note(server, 'dial:10')
  await heat(server, rising(16, 40, 0.8))
  await server.stop()
  const again = await studioServer({ folder: server.folder, clock: server.clock })
  expect((await look(again)).running.step).toBe('full')
  const ended = (await again.ask('POST', '/api/pots/heron/evening/end', { learn: true })).body
  expect([ended.running, ended.lastDoneMs]).toEqual([null, again.clock.nowMs()])
  const { body } = await again.ask('GET', '/api/pots/heron/burner')
  expect([body.isGuess, body.traces.length, body.traces[0].batchId]).toEqual([false, 1, null])
  const full = body.dials.at(-1)
  // 0.8 °C in half a minute into 12 L: 12 · 4.186 kJ · 1.6 / 60 s = 1.34 kW and the losses.
  expect(full.watts.value).toBeGreaterThan(1250)
  expect(full.watts.value).toBeLessThan(1600)
})

test('an evening is refused with a reason where it could not teach', async () => {
  const server = await studioServer()
  await server.ask('POST', '/api/pots', { title: 'Heron' })
  const reason = async () => (await look(server)).cannot
  expect(await reason()).toBe('no-vessel')
  await server.ask('PUT', '/api/pots/heron', { title: 'Heron', vessel: VESSEL })
  expect(await reason()).toBe('no-probe')
  await server.feed('heron', 60, 60)
  await server.ask('PUT', '/api/pots/heron/probe', { probe: 'urn:heron' })
  expect(await reason()).toBe('no-reading')
  await server.feed('heron', 60, 60)
  expect(await reason()).toBe('too-warm')
  const refused = await server.ask('POST', '/api/pots/heron/evening')
  expect([refused.status, refused.body.detail]).toEqual([409, expect.stringContaining('cold water')])
})
