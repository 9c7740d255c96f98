import { expect, test } from 'vitest'
import { type StudioServer, studioServer } from '../../kit/studio-server.ts'

// The second lot of the invented studio Saltmarsh Lane Dyehouse: a shade of March made again six weeks later.

const BRICK = {
  title: 'Brick rose',
  fibre: 'wool',
  stages: [
    {
      id: 'dye',
      title: 'Root bath',
      kind: 'hold',
      windowC: [66, 70],
      ceilingC: 72,
      holdMin: 1,
      liquorRatio: 25,
      additives: [
        { name: 'madder', percentWof: 40 },
        { name: 'chalk', percentWof: 1.5 },
      ],
    },
    { id: 'cool', title: 'Cool', kind: 'cool', coolToC: 38 },
  ],
}

const post = async (server: StudioServer, path: string, body: unknown) => {
  const answer = await server.ask('POST', path, body)
  if (answer.status !== 201) throw new Error(`${path}: ${JSON.stringify(answer.body)}`)
  return answer.body
}

const note = (server: StudioServer, id: number, kind: string, body: object, more: object = {}) =>
  post(server, `/api/batches/${id}/entries`, { kind, body, who: 'Ash', ...more })

/** One reading a second, handed over in one go, as a bridge does that was away. */
async function feedAtOnce(server: StudioServer, tempsC: readonly number[]): Promise<void> {
  const fromS = server.clock.nowMs() / 1000
  server.clock.advance(tempsC.length * 1000)
  const pack = tempsC.map((v, i) => ({ n: 'urn:otter', u: 'Cel', t: fromS + i + 1, v }))
  await server.ask('POST', '/api/readings', pack)
}

/** March: 1000 g of Marl, madder R-11, rain water, in Otter. */
async function march(server: StudioServer): Promise<number> {
  await server.ask('POST', '/api/readings', [{ n: 'urn:otter', u: 'Cel', v: 60 }])
  await post(server, '/api/pots', { title: 'Otter', probe: 'urn:otter' })
  await post(server, '/api/pots', { title: 'Heron' })
  const plan = await post(server, '/api/plans', BRICK)
  const { id } = await post(server, '/api/batches', {
    title: 'Marl in March',
    planId: plan.id,
    dryWeightG: 1000,
  })
  await note(server, id, 'weighing', { stageId: 'dye', additive: 'madder', weighedG: 400, lot: 'R-11' })
  await note(server, id, 'weighing', { stageId: 'dye', additive: 'chalk', weighedG: 15 })
  await note(server, id, 'water', { source: 'rain' })
  await post(server, `/api/batches/${id}/stages/dye/start`, { potId: 'otter' })
  await feedAtOnce(server, [62, 64, 66, ...Array<number>(70).fill(68.3)])
  await post(server, `/api/batches/${id}/stages/cool/start`, { potId: 'otter' })
  await feedAtOnce(server, [68, 67])
  await server.ask('POST', `/api/batches/${id}/end`, {})
  return id
}

test('a shade is made again: scaled as weighed, and what differs today is told before the heat is on', async () => {
  const server = await studioServer()
  const old = await march(server)
  const made = await post(server, `/api/batches/${old}/repeat`, { title: 'Marl again', dryWeightG: 650 })
  expect(made.needs[0].additives.map((a: { needG: number }) => a.needG)).toEqual([260, 9.75])
  const { batchId } = made
  await note(server, batchId, 'weighing', { stageId: 'dye', additive: 'madder', weighedG: 260, lot: 'R-14' })
  await note(server, batchId, 'water', { source: 'tap', ph: 7.9 })
  await post(server, '/api/probes/urn:otter/corrections', { kind: 'offset', offsetC: -0.6, who: 'Ash' })
  const { body } = await server.ask('GET', `/api/batches/${batchId}/differs?from=${old}`)
  const named = body.differences.map((d: { what: string; of: string | null }) => [d.what, d.of])
  expect(named).toContainEqual(['lot', 'madder'])
  expect(named).toContainEqual(['water-source', null])
  expect(named).toContainEqual(['probe-correction', null])
  expect(body.testPieceFirst).toBe(true)
  expect(body.trueMeanC).toBeCloseTo(67.7, 1)
})

test('needs are shown as the scale can show them, beside what was weighed and what stock is short of', async () => {
  const server = await studioServer()
  const plan = await post(server, '/api/plans', BRICK)
  const { id } = await post(server, '/api/batches', { title: 'Marl', planId: plan.id, dryWeightG: 850 })
  const lot = await post(server, '/api/stock', {
    material: 'madder',
    lot: 'R-14',
    receivedG: 300,
    pricePerKg: 45,
  })
  const before = (await server.ask('GET', `/api/batches/${id}/needs?step=1`)).body
  expect(before.stages[0]).toMatchObject({ litres: 21.25 })
  expect(before.stages[0].additives[0]).toMatchObject({ needG: 340, scale: { shownG: 340 }, weighedG: null })
  expect(before.shortages).toMatchObject([{ material: 'madder', stageId: 'dye', missingG: 40 }])
  await note(server, id, 'weighing', { stageId: 'dye', additive: 'madder', weighedG: 290, lotId: lot.id })
  const after = (await server.ask('GET', `/api/batches/${id}/needs?step=1`)).body
  expect(after.stages[0].additives[0].difference).toMatchObject({ isOff: true })
  expect(after.shortages).toEqual([])
  expect((await server.ask('GET', '/api/stock')).body).toMatchObject([{ lot: 'R-14', leftG: 10 }])
})

test('batches are found by words and by dye lot, and compared on one axis', async () => {
  const server = await studioServer()
  const old = await march(server)
  const made = await post(server, `/api/batches/${old}/repeat`, { title: 'Marl again', dryWeightG: 650 })
  const found = await server.ask('GET', '/api/find?text=march')
  // The second is found by its note: it repeats "Marl in March".
  expect(found.body.map((b: { id: number }) => b.id)).toEqual([made.batchId, old])
  const byLot = await server.ask('GET', '/api/find?facet=lot:R-11&facet=probe:urn:otter')
  expect(byLot.body.map((b: { id: number }) => b.id)).toEqual([old])
  expect((await server.ask('GET', '/api/find?facet=colour:red')).status).toBe(400)
  const facets = (await server.ask('GET', '/api/facets')).body
  expect(facets).toContainEqual({ kind: 'lot', value: 'R-11', count: 1 })
  const compared = (await server.ask('GET', `/api/compare?ids=${old},${made.batchId}`)).body
  expect(compared.batches.map((b: { points: unknown[] }) => b.points.length > 50)).toEqual([true, false])
  expect(compared.batches[0].windowC).toEqual([66, 70])
  expect((await server.ask('GET', '/api/compare?ids=1')).status).toBe(400)
})

test('a wrong weight is corrected by a line that replaces it, and the record tells from what to what', async () => {
  const server = await studioServer()
  const old = await march(server)
  const wrong = await note(server, old, 'ph', { ph: 9 })
  await note(server, old, 'ph', { ph: 6.9 }, { replaces: wrong.id })
  const { body } = await server.ask('GET', `/api/batches/${old}/record`)
  expect(body.record.phs.map((l: { body: { ph: number } }) => l.body.ph)).toEqual([6.9])
  expect(body.corrections).toContainEqual(
    expect.objectContaining({ field: 'ph', from: 9, to: 6.9, who: 'Ash' }),
  )
  const refused = await server.ask('POST', `/api/batches/${old}/entries`, { kind: 'ph', body: { ph: 71 } })
  expect([refused.status, refused.body.detail]).toEqual([400, 'ph: ph is 71; allowed is at most 14'])
})

test('sheets, tags, tables and files of a batch go out', async () => {
  const server = await studioServer({ settings: { studio: 'Saltmarsh Lane Dyehouse' } })
  const id = await march(server)
  const sheet = await server.ask('GET', `/api/batches/${id}/sheet?unit=F`)
  expect(sheet.headers.get('content-type')).toBe('text/html; charset=utf-8')
  expect(sheet.headers.get('content-security-policy')).toContain("style-src 'unsafe-inline'")
  expect(sheet.body).toContain('Saltmarsh Lane Dyehouse')
  expect(sheet.body).toContain('°F')
  for (const name of ['tag', 'lot-record', 'class-page?pupils=Ash,Bryn'])
    expect((await server.ask('GET', `/api/batches/${id}/${name}`)).status).toBe(200)
  const trace = await server.ask('GET', `/api/batches/${id}/trace.csv`)
  expect(trace.body.split('\r\n').slice(0, 2)).toEqual([
    'time,temp_c,event',
    expect.stringMatching(/^2026-01-10T08:00:\d\d\.\d{3}Z,,stage:dye$/),
  ])
  expect(trace.headers.get('content-disposition')).toContain(`batch-${id}-trace.csv`)
  const file = (await server.ask('GET', `/api/batches/${id}/batch.json`)).body
  expect(file).toMatchObject({ format: 'holdfast-batch-1', title: 'Marl in March' })
  expect((await server.ask('GET', '/api/batches.csv')).body).toContain('Marl in March')
  expect((await server.ask('GET', '/api/batches/99/sheet')).status).toBe(404)
  expect((await server.ask('GET', `/api/batches/${id}/sheet?zone=Nowhere/Town`)).body.detail).toContain(
    'IANA',
  )
})

test('six pots of a class are made in one go, those without a probe by hand', async () => {
  const server = await studioServer()
  await server.ask('POST', '/api/readings', [{ n: 'urn:p1', u: 'Cel', v: 20 }])
  const plan = await post(server, '/api/plans', BRICK)
  const pots = [1, 2, 3, 4, 5, 6].map((n) => ({ potId: `pot-${n}` }))
  for (const n of [1, 2, 3, 4, 5, 6])
    await post(server, '/api/pots', { title: `Pot ${n}`, ...(n === 1 ? { probe: 'urn:p1' } : {}) })
  const made = await post(server, '/api/class', { title: 'May', planId: plan.id, dryWeightG: 100, pots })
  expect(made).toHaveLength(6)
  expect(made.map((b: { byHand: boolean }) => b.byHand)).toEqual([false, true, true, true, true, true])
  expect((await server.ask('GET', '/api/batches')).body).toHaveLength(6)
})

test('the checklist says what to do now and what comes next', async () => {
  const server = await studioServer()
  const id = await march(server)
  const again = await post(server, `/api/batches/${id}/repeat`, { title: 'Again', dryWeightG: 500 })
  const list = async () => (await server.ask('GET', `/api/batches/${again.batchId}/checklist`)).body
  expect(await list()).toMatchObject({ task: 'start', stage: { id: 'dye' }, next: { id: 'cool' } })
  await post(server, `/api/batches/${again.batchId}/stages/dye/start`, { potId: 'otter' })
  // The bath stands at 67 °C, in the window, with the goods in.
  expect(await list()).toMatchObject({ task: 'hold', stage: { id: 'dye' }, next: { id: 'cool' } })
})

test('a photo is kept by what it is, not by what it is called, and comes back unchanged', async () => {
  const server = await studioServer()
  const bytes = Buffer.from([0xff, 0xd8, 0xff, 0xe0, 1, 2, 3])
  const send = (body: Buffer, type: string) =>
    fetch(`${server.url}/api/photos`, {
      method: 'POST',
      headers: { 'content-type': type },
      body: new Uint8Array(body),
    })
  const kept = (await (await send(bytes, 'image/jpeg')).json()) as { fileId: string }
  const back = await fetch(`${server.url}/api/photos/${kept.fileId}`)
  expect(back.headers.get('content-type')).toBe('image/jpeg')
  expect(Buffer.from(await back.arrayBuffer())).toEqual(bytes)
  expect((await send(Buffer.from('<svg onload=alert(1)>'), 'image/png')).status).toBe(415)
  expect((await send(bytes, 'image/svg+xml')).status).toBe(415)
  expect((await fetch(`${server.url}/api/photos/${'0'.repeat(64)}`)).status).toBe(404)
})

const patch = (byte: number) => [[byte, byte, byte]]

test('the colour of goods is read from pixels beside a grey card or a swatch of known colour', async () => {
  const server = await studioServer()
  const colour = (body: unknown) => server.ask('POST', '/api/photo-colour', body)
  // Under neutral light 18 % of grey is byte 118 of sRGB (IEC 61966-2-1: 12.92 / 1.055 gamma curve), and byte 128 is
  // L* 53.585 (the same table as in the colour tests). One byte of rounding is 0.4 of L*.
  const byCard = await colour({ goods: patch(128), known: [{ seen: patch(118), is: 'grey-card' }] })
  expect(byCard.status).toBe(200)
  expect(Math.abs(byCard.body.lab.lightness - 53.585)).toBeLessThan(0.4)
  expect(Math.abs(byCard.body.lab.a)).toBeLessThan(0.01)
  // A swatch that is seen as it was measured leaves no doubt but the photo's own.
  const id = await march(server)
  const known = [{ seen: patch(128), is: { batchId: id } }]
  expect(await colour({ goods: patch(128), known })).toMatchObject({ status: 409 })
  await note(server, id, 'result', { lab: { lightness: 53.585, a: 0, b: 0 } })
  const bySwatch = await colour({ goods: patch(118), known })
  expect(Math.abs(bySwatch.body.lab.lightness - 49.496)).toBeLessThan(0.4)
  expect(bySwatch.body.leftOver).toBeLessThan(0.01)
  expect(await colour({ goods: patch(128), known: [{ seen: patch(255), is: 'grey-card' }] })).toMatchObject({
    status: 422,
    body: { detail: expect.stringContaining('blown out') },
  })
  expect(await colour({ goods: patch(256), known })).toMatchObject({ status: 400 })
})

test('a kept photo stands in the sheet and on the class page itself, and nowhere else', async () => {
  const server = await studioServer()
  const id = await march(server)
  const bytes = Buffer.from([0xff, 0xd8, 0xff, 0xe0, 1, 2, 3])
  const answer = await fetch(`${server.url}/api/photos`, {
    method: 'POST',
    headers: { 'content-type': 'image/jpeg' },
    body: new Uint8Array(bytes),
  })
  const { fileId } = (await answer.json()) as { fileId: string }
  await note(server, id, 'photo', { fileId, of: 'dry', caption: 'beside the March swatch' })
  await note(server, id, 'photo', { fileId: '0'.repeat(64), of: 'bath' })
  const page = async (name: string) => (await server.ask('GET', `/api/batches/${id}/${name}`)).body as string
  const picture = `data:image/jpeg;base64,${bytes.toString('base64')}`
  for (const name of ['sheet', 'class-page']) {
    const text = await page(name)
    expect(text).toContain(picture)
    expect(text).toContain('dry: beside the March swatch')
  }
  // Lost or never sent: told in words.
  expect(await page('sheet')).toMatch(/<li>[^<]*bath<\/li>/)
  for (const name of ['tag', 'lot-record']) expect(await page(name)).not.toContain('data:image/jpeg')
})

test('plans to start from are there, and can be saved', async () => {
  const server = await studioServer()
  const points = (await server.ask('GET', '/api/starting-points')).body
  const madder = points.find((p: { id: string }) => p.id === 'madder-red-wool')
  expect((await post(server, '/api/plans', madder.plan)).warnings).toEqual([])
})

// The seven-minute dip of the trade's stories (a worked example, no source): goods in at 60 min, entry at 65 min,
// 7 min under the window from 91 to 98, end at 125: 53 in, 7 below.
test('a trace from any logger becomes a batch with what its hold came to', async () => {
  const server = await studioServer()
  const stages = [{ id: 'dye', kind: 'hold', windowC: [78, 86], ceilingC: 90, holdMin: 60 }]
  const plan = await post(server, '/api/plans', { title: 'Cochineal', fibre: 'wool', stages })
  const { id } = await post(server, '/api/batches', {
    title: 'Old notebook',
    planId: plan.id,
    dryWeightG: 500,
  })
  const csv = ['time,temp_c,event,note', ...dipRows(Date.UTC(2025, 2, 12, 12))].join('\n')
  const done = await post(server, '/api/trace-import', { batchId: id, csv })
  expect(done).toMatchObject({ readings: 125 * 6 + 1, rejected: 0, stages: 1 })
  const batch = (await server.ask('GET', `/api/batches/${id}`)).body
  expect(batch).toMatchObject({ state: 'ended', potId: 'imported' })
  const { inWindowS, belowWindowS, unknownS } = batch.stages[0].outcome.bins
  // By hand, crossings taken linearly between rows ten seconds apart: in from 64:50.566 (77.88 → 80), out from
  // 91:06.667 (80 → 77) to 97:53.333 (77 → 80), end at 125:00.
  expect(belowWindowS).toBeCloseTo(406.667, 2)
  expect(inWindowS).toBeCloseTo(7500 - 3890.566 - 406.667, 2)
  expect(unknownS).toBe(0)
  expect((await server.ask('GET', `/api/batches/${id}/sheet`)).body).toContain('53 in the window')
  const again = await server.ask('POST', '/api/trace-import', { batchId: id, csv })
  expect(again.status).toBe(409)
  const other = await post(server, '/api/batches', { title: 'Other', planId: plan.id, dryWeightG: 500 })
  const bad = await server.ask('POST', '/api/trace-import', {
    batchId: other.id,
    csv: 'time,temp_c\nyesterday,70',
  })
  expect([bad.status, bad.body.detail]).toEqual([400, expect.stringContaining('line 2')])
})

function dipRows(fromMs: number): readonly string[] {
  return Array.from({ length: 125 * 6 + 1 }, (_, i) => {
    const word = i === 0 ? 'goods-out' : i === 360 ? 'goods-in' : ''
    return `${new Date(fromMs + i * 10_000).toISOString()},${dipC(i / 6).toFixed(2)},${word},x`
  })
}

function dipC(min: number): number {
  if (min < 50) return 22 + min * 1.16
  if (min < 60) return 80
  if (min < 65) return 75.7 + (min - 60) * 0.45
  return min > 91 && min < 98 ? 77 : 80
}
