import { expect, test, vi } from 'vitest'
import type { AlarmMessage, NoticeMessage, StoveLive } from '#core/wire/live'
import { heronInMordant, type StudioServer, studioServer } from '../../kit/studio-server.ts'

const once = <T>(page: ReturnType<StudioServer['page']>, event: 'stove' | 'alarm' | 'notice' | 'pulse') =>
  new Promise<T>((resolve) => page.once(event, resolve as never))

/** Up to 84 °C as water can, then there for a while. */
async function heatTo84(server: StudioServer): Promise<void> {
  for (let tempC = 75.5; tempC <= 84; tempC += 0.5) await server.feed('heron', tempC)
}

test('a bath over its ceiling calls every page in its room and stands in the record', async () => {
  const server = await studioServer()
  const batchId = await heronInMordant(server)
  const page = server.page()
  const other = server.page({ pots: ['wren'] })
  let isCalled = false
  other.on('alarm', () => (isCalled = true))
  await Promise.all([once(page, 'stove'), once(other, 'stove')])
  const called = once<AlarmMessage>(page, 'alarm')
  for (let tempC = 76; tempC <= 93; tempC += 1) await server.feed('heron', tempC)
  await server.feed('heron', 93, 93.1, 93.2, 93.1, 93.2, 93.3)
  const alarm = await called
  expect(alarm).toMatchObject({
    alarm: 'above-ceiling',
    change: 'raised',
    pot: 'heron',
    batch: batchId,
    stage: 'mordant',
    limitC: 90,
    urgency: 'at-once',
    clearedAt: null,
  })
  expect(alarm.text).toMatch(/^Heron \(Two skeins\): /)
  const [row] = (await server.ask('GET', '/api/alarms')).body
  expect(row).toMatchObject({ id: alarm.id, alarm: 'above-ceiling', state: 'unacknowledged', batchId })
  expect((await server.ask('GET', `/api/batches/${batchId}`)).body.alarms).toMatchObject([{ id: alarm.id }])
  expect(isCalled).toBe(false)
})

test('an alarm is acknowledged once, over HTTP or the socket, and never shelved when it must not be', async () => {
  const server = await studioServer()
  await heronInMordant(server)
  for (let tempC = 76; tempC <= 93; tempC += 1) await server.feed('heron', tempC)
  await server.feed('heron', 93, 93.1, 93.2, 93.1, 93.2, 93.3)
  const [alarm] = (await server.ask('GET', '/api/alarms')).body
  const page = server.page()
  const stove = await once<StoveLive>(page, 'stove')
  expect(stove.alarms.map((a) => a.alarmId)).toEqual([alarm.id])
  expect(await page.emitWithAck('shelve', { id: alarm.id, minutes: 10 })).toEqual({
    ok: false,
    why: 'above-ceiling is never shelved: acknowledge it and go to the pot',
  })
  const told = once<AlarmMessage>(page, 'alarm')
  const done = await server.ask('POST', `/api/alarms/${alarm.id}/acknowledge`, { who: 'Ada' })
  expect(done.body).toMatchObject({ state: 'acknowledged', acknowledgedBy: 'Ada' })
  expect(await told).toMatchObject({ change: 'acknowledged', acknowledgedBy: 'Ada', alarmId: alarm.id })
  expect(await page.emitWithAck('acknowledge', { id: alarm.id })).toEqual({
    ok: false,
    why: 'above-ceiling was acknowledged already by Ada',
  })
  expect((await server.ask('POST', '/api/alarms/999/acknowledge', {})).status).toBe(404)
  expect(await page.emitWithAck('acknowledge', 'nonsense' as never)).toMatchObject({ ok: false })
})

test('a page that was away gets what it missed, in order, and nothing twice', async () => {
  const server = await studioServer()
  await heronInMordant(server)
  await heatTo84(server)
  await server.feed('heron', ...Array<number>(200).fill(84))
  const page = server.page({ lastId: 0 })
  const notices: NoticeMessage[] = []
  page.on('notice', (notice) => notices.push(notice))
  const stove = await once<StoveLive>(page, 'stove')
  expect(notices.map((n) => n.notice)).toEqual(['stage-started', 'at-window', 'hold-started'])
  expect(notices.map((n) => n.id)).toEqual([1, 2, 3])
  expect(stove.lastId).toBe(3)
  const later = server.page({ lastId: 2 })
  const missed: number[] = []
  later.on('notice', (notice) => missed.push(notice.id))
  await once(later, 'stove')
  expect(missed).toEqual([3])
})

test('after a restart the hold goes on from the record, and what was told is not told again', async () => {
  const server = await studioServer()
  const batchId = await heronInMordant(server)
  await heatTo84(server)
  await server.feed('heron', ...Array<number>(300).fill(84), 91, 92, 92, 92, 92, 92, 92, 92, 92)
  const before = (await server.ask('GET', '/api/stove')).body as StoveLive
  const told = await server.store.messages.after(0, 100)
  await server.stop()
  const again = await studioServer({ folder: server.folder, clock: server.clock })
  const after = (await again.ask('GET', '/api/stove')).body as StoveLive
  expect(after.pots[0]!.hold).toEqual(before.pots[0]!.hold)
  expect(after.pots[0]!.hold!.inWindowS).toBeGreaterThan(290)
  expect(await again.store.messages.after(0, 100)).toEqual(told)
  expect(after.alarms.map((a) => a.alarmId)).toEqual(before.alarms.map((a) => a.alarmId))
  expect(after.alarms.length).toBe(1)
  await again.feed('heron', 92, 92)
  expect((await again.ask('GET', '/api/alarms')).body.length).toBe(1)
  expect(
    (await again.ask('GET', `/api/batches/${batchId}`)).body.stages[0].outcome.bins.aboveCeilingS,
  ).toBeGreaterThan(0)
})

test('readings that come hours late call nobody, and the hold is counted again with them', async () => {
  const server = await studioServer()
  await heronInMordant(server)
  await heatTo84(server)
  await server.feed('heron', ...Array<number>(240).fill(84))
  const fromMs = server.clock.nowMs()
  await server.wait(600)
  await server.feed('heron', 84)
  const bins = async () => ((await server.ask('GET', '/api/stove')).body as StoveLive).pots[0]!.hold!
  const unknownS = (await bins()).unknownS
  expect(unknownS).toBeGreaterThan(590)
  const told = (await server.store.messages.after(0, 100)).length
  const late = Array.from({ length: 600 }, (_, s) => ({
    ...(s === 0 ? { bn: 'urn:heron', bu: 'Cel', bt: fromMs / 1000 } : {}),
    t: s + 0.5,
    v: s > 100 && s < 200 ? 91.5 : 84 + (s % 2) / 10,
  }))
  expect((await server.ask('POST', '/api/readings', late)).body.stored).toBe(600)
  await server.wait(4)
  await vi.waitFor(async () => expect((await bins()).unknownS).toBeLessThan(5), { timeout: 5_000 })
  expect((await bins()).aboveCeilingS).toBeGreaterThan(50)
  const messages = await server.store.messages.after(0, 100)
  expect(
    messages.slice(told).filter((m) => m.kind === 'alarm' && m.message.alarm === 'above-ceiling'),
  ).toEqual([])
  const found = (await server.store.alarms.list({ limit: 9 })).filter(
    (a) => a.entry.alarm === 'above-ceiling',
  )
  expect(found.map((a) => a.entry.foundLate)).toEqual([true])
})

test('an event with an earlier time is kept with its mark and counts from then', async () => {
  const server = await studioServer()
  const batchId = await heronInMordant(server)
  await heatTo84(server)
  await server.feed('heron', ...Array<number>(300).fill(84))
  const atMs = server.clock.nowMs() - 60_000
  const event = await server.ask('POST', `/api/batches/${batchId}/events`, { event: 'goods-out', atMs })
  expect(event.body).toMatchObject({ atMs, notedMs: server.clock.nowMs(), stageId: 'mordant' })
  const hold = () => server.ask('GET', '/api/stove').then(({ body }) => (body as StoveLive).pots[0]!.hold!)
  expect((await hold()).goodsOutS).toBeCloseTo(60, 0)
  await server.ask('POST', `/api/batches/${batchId}/events/${event.body.id}/strike`, { who: 'Ada' })
  expect((await hold()).goodsOutS).toBe(0)
  const ahead = await server.ask('POST', `/api/batches/${batchId}/events`, {
    event: 'stir',
    atMs: atMs + 3_600_000,
  })
  expect(ahead.body.detail).toContain('lies ahead')
})

test('each second a pulse shows that the watch is running', async () => {
  const server = await studioServer()
  await heronInMordant(server)
  const page = server.page()
  await once(page, 'stove')
  const pulse = once<{ atMs: number; pots: readonly { potId: string }[] }>(page, 'pulse')
  await server.wait(1)
  expect(await pulse).toMatchObject({ atMs: server.clock.nowMs(), pots: [{ potId: 'heron' }], listeners: 0 })
  expect(await page.emitWithAck('seen', { id: 0, sound: true })).toEqual({ ok: true })
  expect((await server.ask('GET', '/api/stove')).body.listeners).toBe(1)
})

test('a stopped server leaves no call behind', async () => {
  const server = await studioServer()
  await heronInMordant(server)
  await server.feed('heron', 76)
  await server.stop()
  expect(server.clock.pending).toBe(0)
})

test('a database that does not answer about late readings is told, and the watch goes on', async () => {
  const server = await studioServer({
    store: (store) => {
      Object.assign(store.batches, { runsOn: () => Promise.reject(new Error('the database is away')) })
      return store
    },
  })
  await server.feed('heron', 20, 20, 20)
  const late = [{ n: 'urn:heron', u: 'Cel', t: server.clock.nowMs() / 1000 - 3600, v: 20 }]
  expect((await server.ask('POST', '/api/readings', late)).body.stored).toBe(1)
  await server.wait(5)
  expect((await server.ask('GET', '/healthz')).body.trouble).toMatch(/alarms may be missing/)
  await server.feed('heron', 21)
  expect((await server.ask('GET', '/api/probes')).body[0].tempC).toBe(21)
})

test('a page that missed more than a thousand messages gets the newest, with a word on the others', async () => {
  const server = await studioServer()
  const { teller, clock } = server.studio
  for (let n = 0; n < 1003; n += 1) {
    const at = { potId: 'heron', stageId: 'mordant', atMs: clock.nowMs(), tempC: 80 }
    teller.notice({ kind: 'notice', notice: 'turn-due', ...at })
  }
  const heard = async (lastId: number) => {
    const page = server.page({ lastId })
    const ids: number[] = []
    let isLeftOut = false
    page.on('leftOut', () => (isLeftOut = true))
    page.on('notice', ({ id }) => ids.push(id))
    await new Promise<void>((resolve) => page.once('stove', () => resolve()))
    return { isLeftOut, first: ids[0], last: ids.at(-1) }
  }
  expect(await heard(0)).toEqual({ isLeftOut: true, first: 4, last: 1003 })
  expect(await heard(3)).toEqual({ isLeftOut: false, first: 4, last: 1003 })
})
