import { expect, test } from 'vitest'
import type { CallMessage, StoveLive, TestMessage } from '#core/wire/live'
import { LetterBox } from '../../kit/letter-box.ts'
import { heronInMordant, type StudioServer, studioServer } from '../../kit/studio-server.ts'
import { until } from '../../kit/until.ts'

const SECRET = 'A'.repeat(32)
const KEYS = {
  p256dh: 'BCVxsr7N_eNgVRqvHtD0zTZsEc6-VV-JvLexhqUzORcxaOzi6-AYWXvTBHm4bjyPjs7Vd8pZGH6SRpkNtoIAiw4',
  auth: 'BTBZMqHH6r4Tts7J_aSIgg',
}
const BRIDGE = { authorization: 'Bearer the key of the bridge beside' }

async function overTheCeiling(server: StudioServer): Promise<void> {
  for (let tempC = 76; tempC <= 93; tempC += 1) await server.feed('heron', tempC)
  await server.feed('heron', 93, 93.1, 93.2, 93.1, 93.2, 93.3)
}

async function openPage(server: StudioServer, sound: boolean) {
  const page = server.page()
  await new Promise<StoveLive>((resolve) => page.once('stove', resolve))
  await page.emitWithAck('seen', { id: 0, sound })
  const calls: CallMessage[] = []
  page.on('call', (call) => calls.push(call))
  return { page, calls }
}

test('an alarm is called to pages, then to the webhook, until somebody acknowledges', async () => {
  const box = new LetterBox()
  const url = await box.open()
  const server = await studioServer({ settings: { webhook: { url, secret: SECRET } } })
  await heronInMordant(server)
  const { calls } = await openPage(server, true)
  await overTheCeiling(server)
  await until(() => calls.some((c) => c.loudness === 'repeat'))
  const { alarmId } = calls.find((c) => c.loudness === 'repeat')!
  await server.wait(62)
  await until(() => calls.some((c) => c.loudness === 'loud' && c.alarmId === alarmId))
  const types = () => box.letters.map((l) => (JSON.parse(l.body.toString()) as { type: string }).type)
  await until(() => types().includes('alarm.unanswered'))
  expect(types()).toContain('alarm.raised')
  await server.ask('POST', `/api/alarms/${alarmId}/acknowledge`, {})
  await until(() => types().includes('alarm.acknowledged'))
  const before = calls.filter((c) => c.alarmId === alarmId).length
  await server.wait(120)
  expect(calls.filter((c) => c.alarmId === alarmId)).toHaveLength(before)
  await box.close()
})

test('who would hear an alarm: pages with their sound on, not those without', async () => {
  const server = await studioServer()
  expect((await server.ask('GET', '/api/who-hears')).body).toEqual({
    pages: 0,
    phones: [],
    lamp: 'none',
    webhook: false,
    computer: { kind: 'not-needed' },
  })
  await openPage(server, true)
  await openPage(server, false)
  expect((await server.ask('GET', '/api/who-hears')).body.pages).toBe(1)
})

test('a test alarm reaches pages, which answer over the socket or over HTTP', async () => {
  const server = await studioServer()
  const { page } = await openPage(server, true)
  const heard = new Promise<TestMessage>((resolve) => page.once('test', resolve))
  const started = await server.ask('POST', '/api/test-alarms', {})
  expect(started).toMatchObject({ status: 201, body: { called: { pages: 1, phones: 0 }, answers: [] } })
  const { testId } = await heard
  expect(testId).toBe(started.body.testId)
  expect(await page.emitWithAck('heardTest', { testId, device: 'kitchen tablet' })).toEqual({ ok: true })
  const phone = await server.ask('POST', `/api/test-alarms/${testId}/heard`, { device: 'phone' })
  expect(phone.body).toEqual({ ok: true })
  expect((await server.ask('POST', '/api/test-alarms/99/heard', { device: 'phone' })).status).toBe(409)
  const [test1] = (await server.ask('GET', '/api/test-alarms')).body
  expect(test1.answers.map((a: { device: string }) => a.device)).toEqual(['kitchen tablet', 'phone'])
})

test('tests in a row are refused: they wake people', async () => {
  const server = await studioServer()
  for (let i = 0; i < 6; i++) expect((await server.ask('POST', '/api/test-alarms', {})).status).toBe(201)
  expect((await server.ask('POST', '/api/test-alarms', {})).status).toBe(429)
})

test('a phone is put on the list and taken off; its address is not shown to anybody', async () => {
  const server = await studioServer({ settings: { push: {} } })
  const subscription = { endpoint: 'https://push.example.net/secret-path', keys: KEYS, expirationTime: null }
  const added = await server.ask('POST', '/api/push/phones', { subscription, title: "Ina's phone" })
  expect(added).toMatchObject({ status: 201, body: { title: "Ina's phone" } })
  const push = (await server.ask('GET', '/api/push')).body
  expect(push.publicKey).toMatch(/^[A-Za-z0-9_-]{87}$/)
  expect(push.phones).toEqual([added.body])
  expect(JSON.stringify(push)).not.toContain('secret-path')
  expect((await server.ask('DELETE', `/api/push/phones/${added.body.id}`)).body).toEqual({ ok: true })
  expect((await server.ask('DELETE', `/api/push/phones/${added.body.id}`)).status).toBe(404)
})

test('push that is off, or a push service inside the house, is refused in a sentence', async () => {
  const off = await studioServer()
  const subscription = { endpoint: 'https://push.example.net/x', keys: KEYS }
  expect(await off.ask('POST', '/api/push/phones', { subscription, title: 'x' })).toMatchObject({
    status: 409,
    body: { detail: expect.stringContaining('push is off') },
  })
  const on = await studioServer({ settings: { push: {} } })
  const inside = { ...subscription, endpoint: 'https://192.168.1.1/admin' }
  expect((await on.ask('POST', '/api/push/phones', { subscription: inside, title: 'x' })).status).toBe(400)
})

test('a bridge is told the ceilings of running stages, and that nobody watches while the watch stands still', async () => {
  const server = await studioServer()
  const state = {
    bridge: 'pi',
    boot: 'b1',
    atMs: server.clock.nowMs(),
    probes: [],
    outbox: { waiting: 0, oldestWaitingMs: null, refused: 0, trouble: null },
    candidates: null,
  }
  const limits = async () => (await server.ask('GET', '/api/bridge/settings', undefined, BRIDGE)).body.limits
  expect(await limits()).toEqual([])
  await heronInMordant(server)
  expect(await limits()).toEqual([{ probe: 'urn:heron', pot: 'heron', title: 'Heron', rawC: 90 }])
  expect((await server.ask('POST', '/api/bridge/state', state, BRIDGE)).status).toBe(200)
  const stopped = server.studio.watching
  await stopped.stop()
  await server.wait(6)
  expect((await server.ask('POST', '/api/bridge/state', state, BRIDGE)).status).toBe(503)
})

test('letters that the webhook did not take are shown', async () => {
  const box = new LetterBox()
  box.answer = 404
  const server = await studioServer({ settings: { webhook: { url: await box.open(), secret: SECRET } } })
  await server.ask('POST', '/api/test-alarms', {})
  await until(() => box.letters.length === 1)
  await expect
    .poll(async () => (await server.ask('GET', '/api/webhook')).body)
    .toMatchObject({ isSet: true, waiting: 0, dead: [{ why: 'it answered with status 404' }] })
  await box.close()
})
