import { expect, test } from 'vitest'
import { ALUM_STAGE } from '../../kit/alum-stage.ts'
import { type StudioServer, MORDANT_PLAN, studioServer } from '../../kit/studio-server.ts'

// Two customers' skeins in one alum bath. The grams follow from the weights by hand: 12 % of 400 g + 150 g + 300 g is 102 g.

const ALUM = {
  ...MORDANT_PLAN,
  stages: [ALUM_STAGE, { id: 'rinse', kind: 'rest', minutes: 10 }],
}

const made = async (server: StudioServer, path: string, body: unknown) => {
  const answer = await server.ask('POST', path, body)
  if (answer.status !== 201) throw new Error(`${path}: ${JSON.stringify(answer.body)}`)
  return answer.body
}
const read = async (server: StudioServer, path: string) => (await server.ask('GET', path)).body

async function bathOfThree(server: StudioServer) {
  await server.ask('POST', '/api/readings', [{ n: 'urn:heron', u: 'Cel', v: 75 }])
  await made(server, '/api/pots', { title: 'Heron', probe: 'urn:heron' })
  const plan = await made(server, '/api/plans', ALUM)
  const bath = await made(server, '/api/batches', { title: 'Marl, Ash', planId: plan.id, dryWeightG: 400 })
  const second = await made(server, `/api/batches/${bath.id}/lots`, { title: 'Marl, Bryn', dryWeightG: 150 })
  // Asked of a lot, it is put into the same bath.
  const third = await made(server, `/api/batches/${second.id}/lots`, {
    title: 'Marl, Caro',
    dryWeightG: null,
  })
  await made(server, `/api/batches/${third.id}/entries`, {
    kind: 'goods',
    body: { dryWeightG: 300, owner: 'Caro', lot: 'C-7' },
  })
  return { bath: bath.id as number, second: second.id as number, third: third.id as number }
}

test('lots in one bath are weighed for together, and each keeps its own goods', async () => {
  const server = await studioServer()
  const { bath, second, third } = await bathOfThree(server)
  const lot = await read(server, `/api/batches/${third}`)
  expect(lot.bathOf).toBe(bath)
  expect(lot.lots).toEqual([
    { id: bath, title: 'Marl, Ash', dryWeightG: 400 },
    { id: second, title: 'Marl, Bryn', dryWeightG: 150 },
    { id: third, title: 'Marl, Caro', dryWeightG: 300 },
  ])
  for (const id of [bath, second, third]) {
    const [mordant] = (await read(server, `/api/batches/${id}/needs`)).stages
    expect(mordant.litres).toBeCloseTo(25.5, 9)
    expect(mordant.additives[0].needG).toBeCloseTo(102, 9)
  }
})

test('a weighing noted at one lot is the whole bath’s; a result is that lot’s alone', async () => {
  const server = await studioServer()
  const { bath, second, third } = await bathOfThree(server)
  const alum = { stageId: 'mordant', additive: 'potassium alum', weighedG: 102, lot: 'A-3' }
  const weighing = await made(server, `/api/batches/${second}/entries`, { kind: 'weighing', body: alum })
  await made(server, `/api/batches/${second}/entries`, { kind: 'result', body: { words: 'even' } })
  for (const id of [bath, second, third]) {
    const { record } = await read(server, `/api/batches/${id}/record`)
    expect(record.weighings.map((line: { body: unknown }) => line.body)).toEqual([alum])
    expect(record.result.words).toBe(id === second ? 'even' : undefined)
  }
  // A correction is a correction, at whichever lot it is typed.
  const corrected = { kind: 'weighing', body: { ...alum, weighedG: 103 }, replaces: weighing.id }
  await made(server, `/api/batches/${third}/entries`, corrected)
  const { record, corrections } = await read(server, `/api/batches/${bath}/record`)
  expect(record.weighings[0].body.weighedG).toBe(103)
  expect(corrections).toMatchObject([{ field: 'weighedG', from: 102, to: 103 }])
  // All three are found by the lot of the alum; only one by its owner.
  const found = async (facet: string) =>
    (await read(server, `/api/find?facet=${facet}`)).map((one: { id: number }) => one.id)
  expect(await found('lot:A-3')).toEqual([third, second, bath])
  expect(await found('owner:Caro')).toEqual([third])
})

test('what is done at one lot is done to the bath: one trace, one state, one end', async () => {
  const server = await studioServer()
  const { bath, second, third } = await bathOfThree(server)
  await made(server, `/api/batches/${second}/stages/mordant/start`, { potId: 'heron' })
  await server.feed('heron', 81, 82, 82)
  await made(server, `/api/batches/${third}/events`, { event: 'goods-in' })
  for (const id of [bath, second, third]) {
    const one = await read(server, `/api/batches/${id}`)
    expect(one).toMatchObject({ state: 'running', potId: 'heron' })
    expect(one.stages).toMatchObject([{ stageId: 'mordant', potId: 'heron', endedMs: null }])
    expect(one.events.map((e: { event: { kind: string } }) => e.event.kind)).toEqual(['stage', 'goods-in'])
  }
  // A lot that is put in later lies in the same running bath.
  const late = await made(server, `/api/batches/${bath}/lots`, { title: 'A scarf', dryWeightG: 80 })
  expect(late).toMatchObject({ state: 'running', potId: 'heron', stages: [{ stageId: 'mordant' }] })
  expect((await read(server, '/api/find?facet=probe:urn:heron')).length).toBe(4)
  await server.ask('POST', `/api/batches/${late.id}/end`, {})
  const states = (await read(server, '/api/batches')).map((one: { state: string }) => one.state)
  expect(states).toEqual(['ended', 'ended', 'ended', 'ended'])
  // One that was forgotten is put on record after the end, with the bath's trace.
  const forgotten = await made(server, `/api/batches/${bath}/lots`, { title: 'A sock', dryWeightG: 40 })
  expect(forgotten).toMatchObject({ state: 'ended', potId: 'heron', stages: [{ stageId: 'mordant' }] })
  expect(forgotten.stages[0].endedMs).not.toBe(null)
})

test('each lot has a sheet with the bath’s trace and the others’ weights, and a tag that names none of them', async () => {
  const server = await studioServer()
  const { second, third } = await bathOfThree(server)
  await made(server, `/api/batches/${second}/stages/mordant/start`, { potId: 'heron' })
  await server.feed('heron', 81, 82, 82, 83)
  await server.ask('POST', `/api/batches/${second}/end`, {})
  const sheet = await read(server, `/api/batches/${third}/sheet`)
  expect(sheet).toContain('In one bath')
  expect(sheet).toContain('Marl, Bryn')
  expect(sheet).toContain('850 g')
  expect(sheet).toContain('<svg')
  const tag = await read(server, `/api/batches/${third}/tag`)
  expect(tag).toContain('C-7')
  expect(tag).not.toContain('Bryn')
  const file = await read(server, `/api/batches/${third}/batch.json`)
  expect(file.stages[0].trace.length).toBeGreaterThan(2)
})

test('a shade of a shared bath is repeated by what the whole bath took', async () => {
  const server = await studioServer()
  const { second } = await bathOfThree(server)
  const alum = { stageId: 'mordant', additive: 'potassium alum', weighedG: 102 }
  await made(server, `/api/batches/${second}/entries`, { kind: 'weighing', body: alum })
  const again = await made(server, `/api/batches/${second}/repeat`, { title: 'Again', dryWeightG: 200 })
  // 102 g on 850 g are 12 %, and 12 % of 200 g are 24 g.
  expect(again.needs[0].additives[0].needG).toBeCloseTo(24, 9)
})
