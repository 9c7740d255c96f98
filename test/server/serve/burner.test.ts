import { expect, test } from 'vitest'
import type { ForecastRecord, RangedAnswer } from '#core/wire/burner'
import { HandClock } from '../../kit/hand-clock.ts'
import { cookedRecord } from '../../kit/cooked-record.ts'
import { labPot, labSteadyC } from '../../kit/stove-lab.ts'
import { studioServer } from '../../kit/studio-server.ts'

type Told = ForecastRecord
const spread = (r: RangedAnswer) => Math.log(r.high90 / r.low90)
const NOON = Date.UTC(2026, 0, 10, 12)

/** Two days of a lab pot on record, ended an hour ago and learned; its physics is richer than the model. */
async function twoDays() {
  const pot = labPot(14, 'coil', 3)
  const folder = await cookedRecord(pot, 2, NOON - 3_600_000)
  const server = await studioServer({
    folder,
    clock: new HandClock(NOON),
    settings: { energyPricePerKWh: 0.4 },
  })
  await server.studio.burners.learn('heron')
  return { pot, server }
}

test('before any trace the burner’s page marks its figures as guesses', async () => {
  const server = await studioServer()
  const vessel = { litres: 20, burner: { dialMax: 10 } }
  await server.ask('POST', '/api/pots', { title: 'Heron', vessel })
  const { status, body } = await server.ask('GET', '/api/pots/heron/burner')
  expect([status, body.isGuess, body.traces, body.record]).toEqual([200, true, [], []])
  expect(body.dials.every((d: { isKnown: boolean }) => !d.isKnown)).toBe(true)
  await server.ask('POST', '/api/pots', { title: 'Wren' })
  const without = await server.ask('GET', '/api/pots/wren/burner')
  expect([without.status, without.body.detail]).toEqual([409, expect.stringContaining('no vessel')])
  expect((await server.ask('GET', '/api/pots/nobody/burner')).status).toBe(404)
})

test('the record of two days teaches the burner, and forecasts stand beside what came', async () => {
  const { pot, server } = await twoDays()
  const { body } = await server.ask('GET', '/api/pots/heron/burner')
  expect([body.isGuess, body.traces.length]).toEqual([false, 2])
  expect(body.traces.map((t: { title: string }) => t.title)).toEqual(['Marl, day 2', 'Marl, day 1'])
  for (const trace of body.traces) expect(trace.misfitC).toBeLessThan(0.6)
  // The truth is the lab's own balance of heat at that dial, which the model does not share.
  const three = body.dials.find((d: { dial: number }) => d.dial === 3)
  expect(Math.abs(three.steadyLidOnC.value - labSteadyC(pot, 'on', 3))).toBeLessThan(2.5)
  expect(three.isKnown).toBe(true)
  expect(body.energy[0].kWh).toBeGreaterThan(0.5)
  expect(body.energy[0].cost).toBeCloseTo(body.energy[0].kWh * 0.4, 9)
  // What the first day alone would have said of the second.
  const second = body.record.filter((r: { batchId: number }) => r.batchId === 2)
  expect(second.map((r: Told) => r.kind).toSorted()).toEqual(['cool', 'window'])
  expect(second.every((r: Told) => !r.isGuess && r.source === 'replayed')).toBe(true)
  const off01 = second.map((r: Told) => Math.abs(r.told - r.came) / (r.came - r.madeMs))
  expect(Math.max(...off01)).toBeLessThan(0.12)
})

test('what was learned is taken up after a restart, and learning all anew gives the same', async () => {
  const { server } = await twoDays()
  const before = await server.ask('GET', '/api/pots/heron/burner')
  await server.stop()
  const again = await studioServer({ folder: server.folder, clock: new HandClock(NOON) })
  const after = await again.ask('GET', '/api/pots/heron/burner')
  expect(after.body.dials).toEqual(before.body.dials)
  expect((await again.ask('POST', '/api/pots/heron/burner/learn')).body.dials).toEqual(before.body.dials)
})

test('what was learned by other laws is no knowledge, and is learned anew at the next start', async () => {
  const { server } = await twoDays()
  const before = await server.ask('GET', '/api/pots/heron/burner')
  for (const row of await server.store.heat.taught('heron')) {
    const { belief, ...lesson } = row.lesson!
    const shifted = { ...belief, mean: belief.mean.map((value) => value + 1) }
    await server.store.heat.putTaught({ ...row, lesson: { ...lesson, laws: 1, belief: shifted } })
  }
  await server.stop()
  const again = await studioServer({ folder: server.folder, clock: new HandClock(NOON) })
  await again.studio.burners.learn('heron')
  const after = await again.ask('GET', '/api/pots/heron/burner')
  expect([after.body.isGuess, after.body.dials]).toEqual([false, before.body.dials])
})

test('a changed burner makes its powers guesses again and leaves what is known of the pot', async () => {
  const { server } = await twoDays()
  const before = await server.ask('GET', '/api/pots/heron/burner')
  server.clock.advance(1000)
  const { body } = await server.ask('POST', '/api/pots/heron/burner/changed', { who: 'Ilse' })
  expect([body.isGuess, body.burnerChangesMs]).toEqual([true, [NOON + 1000]])
  const at = (page: typeof body, dial: number) => page.dials.find((d: { dial: number }) => d.dial === dial)
  expect(spread(at(body, 3).watts)).toBeGreaterThan(4 * spread(at(before.body, 3).watts))
  expect(spread(body.losses[2].lidOnW)).toBeLessThan(1.5 * spread(before.body.losses[2].lidOnW))
})

test('what-if answers with a course, a band around it and the times at the plan’s window', async () => {
  const { server } = await twoDays()
  const ask = { dial: 9, startC: 18, stage: { windowC: [66, 72], ceilingC: 78 } }
  const full = (await server.ask('POST', '/api/pots/heron/what-if', ask)).body
  expect(full.path[0].slice(0, 2)).toEqual([0, 18])
  for (const [, tempC, low, high] of full.path) expect(low <= tempC && tempC <= high).toBe(true)
  expect(full.reachesS.early90).toBeLessThan(full.reachesS.value)
  expect(full.passesCeilingS).toBeGreaterThan(full.reachesS.value)
  const more = (await server.ask('POST', '/api/pots/heron/what-if', { ...ask, litres: 28 })).body
  // Twice the water at the same power takes about twice as long: the arithmetic of the kettle.
  expect(more.reachesS.value / full.reachesS.value).toBeGreaterThan(1.7)
  const cool = { dial: 0, startC: 80, stage: { coolToC: 45 }, hours: 12 }
  const lidded = (await server.ask('POST', '/api/pots/heron/what-if', cool)).body.coolEnoughS.value
  const open = (await server.ask('POST', '/api/pots/heron/what-if', { ...cool, lid: 'off' })).body
  expect(open.coolEnoughS.value).toBeLessThan(0.8 * lidded)
  const wrong = await server.ask('POST', '/api/pots/heron/what-if', { dial: -1 })
  expect([wrong.status, wrong.body.detail]).toEqual([400, expect.stringContaining('dial')])
})

test('mixing tells where the bath stands once goods or cold water are in', async () => {
  const server = await studioServer()
  const vessel = { litres: 10, emptyKg: 0, burner: { dialMax: 10 } }
  await server.ask('POST', '/api/pots', { title: 'Wren', vessel })
  const ask = { bathC: 70, topUp: { litres: 10, tempC: 20 } }
  // Equal parts of water at 70 and 20 °C: the middle, by the rule of mixtures.
  expect((await server.ask('POST', '/api/pots/wren/mixing', ask)).body.mixedC).toBeCloseTo(45, 0)
  const unseen = await server.ask('POST', '/api/pots/wren/mixing', { topUp: { litres: 1, tempC: 20 } })
  expect([unseen.status, unseen.body.detail]).toEqual([409, expect.stringContaining('bathC')])
  expect((await server.ask('POST', '/api/pots/wren/mixing', { bathC: 70 })).status).toBe(400)
})

test('the burner’s addresses are in the OpenAPI document', async () => {
  const server = await studioServer()
  const { body } = await server.ask('GET', '/api/openapi.json')
  for (const part of ['burner', 'burner/learn', 'burner/changed', 'what-if', 'mixing', 'forecast', 'evening'])
    expect(Object.keys(body.paths)).toContain(`/api/pots/{id}/${part}`)
})
