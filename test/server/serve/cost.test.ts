import { expect, test } from 'vitest'
import { type StudioServer, studioServer } from '../../kit/studio-server.ts'

const made = async (server: StudioServer, path: string, body: unknown) => {
  const answer = await server.ask('POST', path, body)
  if (answer.status !== 201) throw new Error(`${path}: ${JSON.stringify(answer.body)}`)
  return answer.body
}

const PLAN = {
  title: 'Red on wool',
  fibre: 'wool',
  stages: [
    {
      id: 'dye',
      title: 'Root bath',
      kind: 'hold',
      windowC: [60, 70],
      ceilingC: 75,
      holdMin: 1,
      additives: [{ name: 'madder', percentWof: 40 }],
    },
  ],
}

/** 10 L in Wren on a coil of 1500 W, madder at 45 a kilogram weighed for 1000 g of goods. */
async function dyed(server: StudioServer) {
  await server.ask('POST', '/api/readings', [{ n: 'urn:wren', u: 'Cel', v: 20 }])
  const burner = { kind: 'coil', dialMax: 10, ratedW: 1500 }
  await made(server, '/api/pots', { title: 'Wren', probe: 'urn:wren', vessel: { litres: 10, burner } })
  const plan = await made(server, '/api/plans', PLAN)
  const batch = await made(server, '/api/batches', { title: 'Marl', planId: plan.id, dryWeightG: 1000 })
  const lot = await made(server, '/api/stock', { material: 'madder', lot: 'R-11', pricePerKg: 45 })
  await made(server, `/api/batches/${batch.id}/entries`, {
    kind: 'weighing',
    body: { stageId: 'dye', additive: 'madder', weighedG: 400, lotId: lot.id },
  })
  await made(server, `/api/batches/${batch.id}/stages/dye/start`, { potId: 'wren' })
  return batch.id as number
}

const hour = async (server: StudioServer, temps: (second: number) => number) => {
  const fromS = server.clock.nowMs() / 1000
  const pack = Array.from({ length: 120 }, (_, i) => ({
    n: 'urn:wren',
    u: 'Cel',
    t: fromS + 30 * (i + 1),
    v: temps(30 * (i + 1)),
  }))
  server.clock.advance(3_600_000)
  await server.ask('POST', '/api/readings', pack)
}

test('energy that nobody typed is reckoned from the dial and the nameplate, and can be replaced', async () => {
  const server = await studioServer({ settings: { energyPricePerKWh: 0.4 } })
  const id = await dyed(server)
  await made(server, `/api/batches/${id}/events`, { event: 'dial:10' })
  await hour(server, (s) => 20 + (45 * s) / 3600)
  await server.ask('POST', `/api/batches/${id}/end`, {})
  const { body } = await server.ask('GET', `/api/batches/${id}/cost`)
  // The nameplate says 1500 W: an hour at the top of the dial is 1.5 kWh by definition.
  expect(body.energy.from).toBe('dial')
  expect(body.energy.kWh).toBeCloseTo(1.5, 2)
  expect(body.cost.energy).toBeCloseTo(0.6, 2)
  // 400 g at 45 a kilogram.
  expect(body.cost.materials).toBe(18)
  expect(body.cost.unknown).toEqual(['goods', 'work'])
  await made(server, `/api/batches/${id}/entries`, { kind: 'cost', body: { energyKWh: 2, goodsCost: 60 } })
  const typed = (await server.ask('GET', `/api/batches/${id}/cost`)).body
  expect(typed.energy).toEqual({ kWh: 2, from: 'typed' })
  expect(typed.cost.total).toBeCloseTo(60 + 18 + 0.8, 9)
})

test('money is what the studio reckons in, unless the batch says otherwise', async () => {
  const server = await studioServer({ settings: { money: 'EUR' } })
  const id = await dyed(server)
  const currency = async () => (await server.ask('GET', `/api/batches/${id}/cost`)).body.currency as unknown
  expect((await server.ask('GET', '/api/studio')).body.money).toBe('EUR')
  expect(await currency()).toBe('EUR')
  await made(server, `/api/batches/${id}/entries`, { kind: 'cost', body: { goodsCost: 60, currency: 'DKK' } })
  expect(await currency()).toBe('DKK')
})

test('without a noted dial the energy is what it takes to warm and hold the bath', async () => {
  const server = await studioServer()
  const id = await dyed(server)
  await hour(server, (s) => Math.min(65, 20 + (45 * s) / 1800))
  await server.ask('POST', `/api/batches/${id}/end`, {})
  const { energy } = (await server.ask('GET', `/api/batches/${id}/cost`)).body
  expect(energy.from).toBe('warming')
  // Water alone takes 10 L · 4.18 kJ · 45 K = 1881 kJ; through a coil that is 74 % (US DOE) 0.706 kWh; pot and losses
  // of an hour at 65 °C (under 150 W lidded, the trade's own table) come on top, 0.3 kWh at most.
  expect(energy.kWh).toBeGreaterThan(0.7)
  expect(energy.kWh).toBeLessThan(1.05)
})

test('a lot in a shared bath bears its share of dyes and energy by weight', async () => {
  const server = await studioServer()
  const id = await dyed(server)
  const lot = await made(server, `/api/batches/${id}/lots`, { title: 'Bryn', dryWeightG: 250 })
  const cost = async (of: number) => (await server.ask('GET', `/api/batches/${of}/cost`)).body
  expect((await cost(lot.id)).share01).toBeCloseTo(0.2, 12)
  expect((await cost(lot.id)).cost.materials).toBeCloseTo(18 * 0.2, 9)
  expect((await cost(id)).cost.materials).toBeCloseTo(18 * 0.8, 9)
  await made(server, `/api/batches/${id}/lots`, { title: 'Unweighed' })
  expect((await cost(id)).share01).toBeNull()
})
