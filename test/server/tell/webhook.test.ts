import { createHmac } from 'node:crypto'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { webhookSettings } from '#core/wire/tell-settings'
import { HandClock } from '../../kit/hand-clock.ts'
import { KeptMemory } from '../../kit/kept-memory.ts'
import { LetterBox } from '../../kit/letter-box.ts'
import { alarmMessage } from '../../kit/alarm-message.ts'
import type { AlarmMessage } from '#core/wire/live'
import type { Message } from '../../../server/store/messages.ts'
import { httpPost } from '../../../server/tell/post.ts'
import type { DeadLetter } from '../../../server/tell/dead-letters.ts'
import { LetterBook, type LetterNote } from '../../../server/tell/letter-book.ts'
import { Webhook } from '../../../server/tell/webhook.ts'
import { signedHeaders } from '../../../server/tell/webhook-signature.ts'

const SECRET = 'whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw'

// The published test vector of the open Standard Webhooks specification (its reference libraries' tests).
test('the signature is that of the Standard Webhooks test vector', () => {
  const id = 'msg_p5jXN8AQM9LWM0D4loKWxJek'
  expect(signedHeaders(SECRET, id, 1_614_265_330_999, '{"test": 2432232314}')).toEqual({
    'webhook-id': id,
    'webhook-timestamp': '1614265330',
    'webhook-signature': 'v1,g0hM9SsE+OTPJTGt/tmIKtSyZlE3uFJELVlNIOLJ1OE=',
  })
})

const box = new LetterBox()
const dead = new KeptMemory<readonly DeadLetter[]>()
const note = new KeptMemory<LetterNote>()
const troubles: string[] = []
let clock: HandClock
let webhook: Webhook

beforeEach(async () => {
  const url = `${await box.open()}/alarms`
  clock = new HandClock()
  webhook = made({ url, secret: SECRET })
  box.answer = 204
  box.letters.length = 0
  troubles.length = 0
  dead.value = null
  note.value = null
})
afterEach(async () => {
  webhook.stop()
  await box.close()
})

const made = (settings: { url: string; secret: string; details?: boolean }) =>
  new Webhook({
    clock,
    random01: () => 0,
    post: httpPost(clock),
    settings: webhookSettings.parse(settings),
    boot: 'b7',
    dead,
    book: new LetterBook({ kept: note, onTrouble: (sentence) => troubles.push(sentence) }),
    onTrouble: (sentence) => troubles.push(sentence),
  })

const bodyOf = (i: number) => JSON.parse(String(box.letters[i]?.body)) as { data: object; type: string }

test('an alarm arrives as signed JSON that the receiver can check by itself', async () => {
  await webhook.alarm(alarmMessage())
  const { headers, body } = box.letters[0]!
  expect(headers['content-type']).toBe('application/json')
  const signed = `${String(headers['webhook-id'])}.${String(headers['webhook-timestamp'])}.${body.toString()}`
  const key = Buffer.from('MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw', 'base64')
  const expected = createHmac('sha256', key).update(signed).digest('base64')
  expect(headers['webhook-signature']).toBe(`v1,${expected}`)
  expect(Number(headers['webhook-timestamp'])).toBe(Math.floor(clock.nowMs() / 1000))
  expect(bodyOf(0)).toMatchObject({ type: 'alarm.raised', data: { pot: 'heron', tempC: 76.4 } })
})

test('people, batches and sentences stay at home unless details are asked for', async () => {
  await webhook.alarm(alarmMessage({ change: 'acknowledged', acknowledgedBy: 'Ina' }))
  expect(Object.keys(bodyOf(0).data)).not.toEqual(expect.arrayContaining(['text']))
  expect(String(box.letters[0]!.body)).not.toMatch(/Ina|batch|lift the lid/)
  const open = made({ url: `${(await reopened()).url}/`, secret: SECRET, details: true })
  await open.alarm(alarmMessage({ change: 'acknowledged', acknowledgedBy: 'Ina' }))
  expect(bodyOf(0).data).toEqual(alarmMessage({ change: 'acknowledged', acknowledgedBy: 'Ina' }))
})

async function reopened() {
  await box.close()
  box.letters.length = 0
  return { url: await box.open() }
}

test('a receiver that is busy gets the same letter again, under the same id and signed anew', async () => {
  box.answer = 503
  await webhook.test()
  expect(webhook.waiting).toBe(1)
  box.answer = 204
  clock.advance(1000)
  await expect.poll(() => webhook.waiting).toBe(0)
  const [first, second] = box.letters.map(({ headers }) => headers)
  expect(second!['webhook-id']).toBe(first!['webhook-id'])
  expect(second!['webhook-signature']).not.toBe(first!['webhook-signature'])
  expect(troubles).toEqual([])
})

test.each([400, 404, 410])(
  'status %i: the letter is kept among the dead, with the reason',
  async (status) => {
    box.answer = status
    await webhook.test()
    expect(dead.value).toMatchObject([{ why: `it answered with status ${status}` }])
    expect(webhook.deadLetters).toEqual(dead.value)
    expect(troubles).toHaveLength(1)
  },
)

test('a redirect is not followed', async () => {
  box.answer = (response) => response.writeHead(307, { location: '/elsewhere' }).end()
  await webhook.alarm(alarmMessage())
  expect(box.letters.map((l) => l.path)).toEqual(['/alarms'])
  expect(webhook.deadLetters[0]?.why).toContain('redirect')
})

test('a receiver that never answers is let go after ten seconds and tried again', async () => {
  box.answer = () => clock.advance(10_000)
  await webhook.test()
  expect(webhook.waiting).toBe(1)
  webhook.stop()
  expect(clock.pending).toBe(0)
})

test('a receiver that is not there is tried again', async () => {
  await box.close()
  await webhook.test()
  expect(webhook.waiting).toBe(1)
  await box.open()
})

test('letters given up in earlier runs are still shown', async () => {
  dead.value = [{ id: 'b6-1', madeMs: 1, gaveUpMs: 2, why: 'it answered with status 404', body: '{}' }]
  await webhook.open([])
  expect(webhook.deadLetters.map((l) => l.id)).toEqual(['b6-1'])
})

const raised = (id: number, more: Partial<AlarmMessage> = {}): Message => ({
  kind: 'alarm',
  message: alarmMessage({ id, alarmId: id, ...more }),
})
const over = (id: number, alarmId: number) => raised(id, { alarmId, change: 'cleared', state: 'normal' })
const hold = (id: number, at: number): Message => ({
  kind: 'notice',
  message: {
    id,
    notice: 'hold-done',
    pot: 'heron',
    batch: 7,
    stage: 'dye',
    at: new Date(at).toISOString(),
    tempC: 62,
    text: 'Heron: the hold is done.',
    facts: { kind: 'notice', notice: 'hold-done', potId: 'heron', stageId: 'dye', atMs: at, tempC: 62 },
  },
})

/** A run that was told of these and died before anything was answered; what arrived by then stands in `note`. */
async function nextRun(told: readonly Message[], standing: readonly Message[]) {
  webhook.stop()
  webhook = made({ url: `${box.url}/alarms`, secret: SECRET })
  await webhook.open(told)
  webhook.takeUp(standing.flatMap((m) => (m.kind === 'alarm' ? [m.message] : [])))
  await expect.poll(() => webhook.waiting).toBe(0)
  return box.letters.map(({ body }) => {
    const { type, data } = JSON.parse(body.toString()) as { type: string; data: { id: number } }
    return `${type} ${data.id}`
  })
}

test('letters that a run did not bring are sent by the next one, where the alarm still stands', async () => {
  await webhook.open([])
  const told = [raised(1), raised(2), over(3, 2), hold(4, clock.nowMs() - 60_000)]
  expect(await nextRun(told, [raised(1)])).toEqual(['alarm.raised 1', 'notice 4'])
  expect(await nextRun(told, [raised(1)])).toHaveLength(2)
})

test('the end of an alarm is sent to whoever was told of its beginning, and to nobody else', async () => {
  await webhook.open([])
  await webhook.alarm(alarmMessage({ id: 5, alarmId: 5 }))
  expect(await nextRun([raised(5), over(6, 5), raised(7), over(8, 7)], [])).toEqual([
    'alarm.raised 5',
    'alarm.cleared 6',
  ])
})

test('a letter that goes twice, by two runs, has one id', async () => {
  await webhook.open([])
  box.answer = 503
  await webhook.alarm(alarmMessage({ id: 9, alarmId: 9 }))
  box.answer = 204
  await nextRun([raised(9)], [raised(9)])
  const ids = box.letters.map(({ headers }) => headers['webhook-id'])
  expect(ids).toHaveLength(2)
  expect(new Set(ids).size).toBe(1)
})

test('a notice of a quarter of an hour ago, and what is only for the morning, is not sent any more', async () => {
  await webhook.open([])
  const told = [hold(2, clock.nowMs() - 900_000), raised(3, { urgency: 'morning' })]
  expect(await nextRun(told, [raised(3, { urgency: 'morning' })])).toEqual([])
})

test('a webhook that is new is told nothing of what was before', async () => {
  expect(await nextRun([raised(1), raised(2)], [raised(1), raised(2)])).toEqual([])
})

test('a letter that was given up is not begun again by the next run', async () => {
  await webhook.open([])
  box.answer = 410
  await webhook.alarm(alarmMessage({ id: 4, alarmId: 4 }))
  box.answer = 204
  box.letters.length = 0
  expect(await nextRun([raised(4)], [raised(4)])).toEqual([])
})

test.each([
  ['https://hooks.example.com/dye?to=lamp', true],
  ['http://127.0.0.1:8080/x', true],
  ['http://192.168.1.9/x', true],
  ['http://172.32.0.1/x', false],
  ['http://[fd12::9]/x', true],
  ['http://nas:8080', true],
  ['http://box.home.arpa/', true],
  ['http://hooks.example.com/', false],
  ['ftp://nas/x', false],
  ['hooks.example.com', false],
])('a webhook to %s is allowed: %s', (url, isAllowed) => {
  expect(webhookSettings.safeParse({ url, secret: SECRET }).success).toBe(isAllowed)
})

test.each(['short', 'AAAA', 'not base64 at all, no, no', 'A'.repeat(100)])(
  'a secret "%s" is refused',
  (secret) => {
    expect(webhookSettings.safeParse({ url: 'https://hooks.example.com', secret }).success).toBe(false)
  },
)

test('the end breaks off a letter to a receiver that never answers', async () => {
  const gone = new Promise<void>((resolve) => {
    box.answer = (response) => response.once('close', () => resolve())
  })
  const sent = webhook.alarm(alarmMessage())
  await expect.poll(() => box.letters.length).toBe(1)
  webhook.stop()
  await sent
  await gone
  expect(dead.value).toBe(null)
})
