import { createECDH, createPublicKey, verify } from 'node:crypto'
import { createRequire } from 'node:module'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { pushSubscription } from '#core/wire/tell-settings'
import { alarmHappening } from '../../kit/alarm-happening.ts'
import { alarmMessage } from '../../kit/alarm-message.ts'
import { HandClock } from '../../kit/hand-clock.ts'
import { KeptMemory } from '../../kit/kept-memory.ts'
import { LetterBox } from '../../kit/letter-box.ts'
import { openPushMessage } from '../../kit/push-receiver.ts'
import type { Phone } from '../../../server/tell/phone.ts'
import { httpPost } from '../../../server/tell/post.ts'
import type { PushMessage } from '../../../server/tell/push-letter.ts'
import { type VapidKeys, openVapidKeys } from '../../../server/tell/vapid-keys.ts'
import { alarmPush, testPush } from '../../../server/tell/push-words.ts'
import { WebPush } from '../../../server/tell/web-push.ts'

// RFC 8291 §5 and Appendix A: the example of a push message.
const RFC = {
  plain: 'When I grow up, I want to be a watermelon',
  senderPrivate: 'yfWPiYE-n46HLnH0KqZOF1fJJU3MYrct3AELtAQ-oRw',
  publicKey: 'BCVxsr7N_eNgVRqvHtD0zTZsEc6-VV-JvLexhqUzORcxaOzi6-AYWXvTBHm4bjyPjs7Vd8pZGH6SRpkNtoIAiw4',
  privateKey: 'q1dXpw3UpT5VOmu_cf_v6ih07Aems3njxI-JWgLcM94',
  auth: 'BTBZMqHH6r4Tts7J_aSIgg',
  salt: 'DGv6ra1nlYgDCS1FRnbzlw',
  message:
    'DGv6ra1nlYgDCS1FRnbzlwAAEABBBP4z9KsN6nGRTbVYI_c7VJSPQTBtkgcy27mlmlMoZIIgDll6e3vCYLocInmYWAmS6TlzAC8wEqKK6PBru3jl7A_yl95bQpu6cVPTpK4Mqgkf1CXztLVBSt2Ks3oZwbuwXPXLWyouBWLVWGNWQexSgSxsj_Qulcy4a-fN',
}

test('the receiver of these tests opens the message of RFC 8291', () => {
  expect(openPushMessage(RFC, Buffer.from(RFC.message, 'base64url'))).toBe(RFC.plain)
})

test('the encryption that the push library uses makes the message of RFC 8291, to the byte', () => {
  const require = createRequire(import.meta.resolve('web-push'))
  const ece = require('http_ece') as { encrypt(plain: Buffer, how: object): Buffer }
  const sender = createECDH('prime256v1')
  sender.setPrivateKey(RFC.senderPrivate, 'base64url')
  const how = {
    version: 'aes128gcm',
    dh: RFC.publicKey,
    privateKey: sender,
    salt: RFC.salt,
    authSecret: RFC.auth,
  }
  expect(ece.encrypt(Buffer.from(RFC.plain), how).toString('base64url')).toBe(RFC.message)
})

const box = new LetterBox()
const phones = new KeptMemory<readonly Phone[]>()
const vapid = new KeptMemory<VapidKeys>()
const troubles: string[] = []
let url: string
let clock: HandClock
let push: WebPush

beforeEach(async () => {
  url = await box.open()
  box.answer = 201
  box.letters.length = 0
  troubles.length = 0
  phones.value = null
  clock = new HandClock()
  push = await opened()
})
afterEach(async () => {
  push.stop()
  await box.close()
})

async function opened(): Promise<WebPush> {
  const made = new WebPush({
    clock,
    random01: () => 0,
    post: httpPost(clock),
    keys: await openVapidKeys(vapid),
    contact: 'mailto:dyer@saltmarsh.example',
    phones,
    person: () => ({ unit: 'C', zone: 'UTC', language: 'en' }),
    names: () => ({ pots: { heron: 'Heron' } }),
    onTrouble: (sentence) => troubles.push(sentence),
  })
  await made.open()
  return made
}

const subscription = (path = 'one') => ({
  endpoint: `${url}/${path}`,
  keys: { p256dh: RFC.publicKey, auth: RFC.auth },
})

const MESSAGE: PushMessage = {
  kind: 'alarm',
  tag: 'alarm-12',
  title: 'Heron',
  body: 'Heron: 76.4 °C, ceiling 76.0. Turn the burner down or off and lift the lid.',
  path: '/#alarms',
  isUrgent: true,
  id: 12,
}

const AT = Date.parse('2026-03-12T14:32:00Z')
const ALARM = alarmMessage({
  text: 'as the studio reads',
  facts: alarmHappening(0, {
    alarm: 'above-ceiling',
    urgency: 'at-once',
    atMs: AT + 5000,
    sinceMs: AT,
    tempC: 76.4,
    limitC: 76,
    rateCPerMin: null,
    lastReadingMs: AT,
    peakC: 76.4,
    dial: 7,
  }),
})

test('a phone can open what was sent to it, and nobody else', async () => {
  await push.add(subscription(), "Ina's phone")
  await push.send(() => MESSAGE)
  const { body } = box.letters[0]!
  expect(JSON.parse(openPushMessage(RFC, body))).toEqual(MESSAGE)
  const stranger = { ...RFC, auth: 'AAAAAAAAAAAAAAAAAAAAAA' }
  expect(() => openPushMessage(stranger, body)).toThrow(/authenticate/)
})

test('each phone gets an alarm in its own language and unit, one without them as the studio reads', async () => {
  await push.add(subscription('old'), 'old phone')
  await push.add(subscription('one'), 'Ilses Telefon', {
    unit: 'F',
    zone: 'Europe/Berlin',
    language: 'de-DE',
  })
  await push.send(alarmPush(ALARM))
  const [old, german] = box.letters.map(({ body }) => JSON.parse(openPushMessage(RFC, body)) as PushMessage)
  expect(old).toMatchObject({
    title: 'Come now',
    body: expect.stringContaining('Heron: 76.4 °C, ceiling 76.0') as string,
  })
  // 76.4 °C = 76.4 · 9/5 + 32 = 169.52 °F; 76.0 °C = 168.8 °F; 14:32 UTC is 15:32 in Berlin in March.
  expect(german).toMatchObject({
    title: 'Sofort kommen',
    body: 'Heron: 169,5 °F, Obergrenze 168,8, darüber seit 15:32. Regler zurück- oder abdrehen und Deckel abheben.',
  })
  box.letters.length = 0
  await push.send(testPush(3))
  const tests = box.letters.map(({ body }) => JSON.parse(openPushMessage(RFC, body)) as PushMessage)
  expect(tests.map((t) => t.device)).toEqual(['old phone, by push', 'Ilses Telefon, über Push'])
})

// RFC 8030 §5.2–5.4 for TTL, urgency and topic; RFC 8188 for the encoding.
test('an urgent message says so, is kept for hours and takes the place of the one before', async () => {
  await push.add(subscription(), 'phone')
  await push.send(() => MESSAGE)
  expect(box.letters[0]!.headers).toMatchObject({
    ttl: '14400',
    urgency: 'high',
    topic: 'alarm-12',
    'content-encoding': 'aes128gcm',
  })
})

// RFC 8292 §2 and §3: `Authorization: vapid t=<JWT>, k=<public key>`; ES256, audience is the origin.
test('the push service can see that the message is from this server', async () => {
  await push.add(subscription(), 'phone')
  await push.send(() => MESSAGE)
  const [, token, key] = /^vapid t=([^,]+), ?k=(.+)$/.exec(String(box.letters[0]!.headers.authorization))!
  expect(key).toBe(push.publicKey)
  const [head, claims, signature] = token!.split('.') as [string, string, string]
  const point = Buffer.from(push.publicKey, 'base64url')
  const jwk = { kty: 'EC', crv: 'P-256', x: b64(point.subarray(1, 33)), y: b64(point.subarray(33)) }
  const publicKey = createPublicKey({ key: jwk, format: 'jwk' })
  const isGenuine = verify(
    'sha256',
    Buffer.from(`${head}.${claims}`),
    { key: publicKey, dsaEncoding: 'ieee-p1363' },
    Buffer.from(signature, 'base64url'),
  )
  expect(isGenuine).toBe(true)
  expect(JSON.parse(Buffer.from(claims, 'base64url').toString())).toMatchObject({
    aud: url,
    sub: 'mailto:dyer@saltmarsh.example',
  })
})
const b64 = (bytes: Uint8Array) => Buffer.from(bytes).toString('base64url')

test('the keys are made once and are the same in the next run, and so are the phones', async () => {
  await push.add(subscription(), 'phone')
  const next = await opened()
  expect(next.publicKey).toBe(push.publicKey)
  expect(next.phones.map((p) => p.title)).toEqual(['phone'])
})

test('the same phone asked for twice is one phone', async () => {
  await push.add(subscription(), 'phone')
  await push.add(subscription(), 'phone with a new name')
  expect(push.phones.map((p) => p.title)).toEqual(['phone with a new name'])
})

test.each([404, 410])('status %i: the phone is taken off the list and told of', async (status) => {
  await push.add(subscription('one'), 'gone')
  await push.add(subscription('two'), 'still there')
  box.answer = (response) => response.writeHead(box.letters.at(-1)!.path === '/one' ? status : 201).end()
  await push.send(() => MESSAGE)
  expect(push.phones.map((p) => p.title)).toEqual(['still there'])
  expect(phones.value).toEqual(push.phones)
  expect(troubles).toEqual([
    'push to gone failed: it does not want to be called any more and was taken off the list',
  ])
})

test('a push service that is busy is tried again; one that refuses is not', async () => {
  await push.add(subscription(), 'phone')
  box.answer = 503
  await push.send(() => MESSAGE)
  box.answer = 201
  clock.advance(1500)
  await expect.poll(() => clock.pending).toBe(0)
  expect(box.letters).toHaveLength(2)
  box.answer = 400
  await push.send(() => MESSAGE)
  expect([clock.pending, troubles]).toEqual([
    0,
    ['push to phone failed: the push service answered with status 400'],
  ])
})

test('a phone that was taken off the list meanwhile is left alone', async () => {
  await push.add(subscription(), 'phone')
  box.answer = 503
  await push.send(() => MESSAGE)
  expect(await push.remove(subscription().endpoint)).toBe(true)
  expect(await push.remove(subscription().endpoint)).toBe(false)
  clock.advance(60_000)
  await expect.poll(() => clock.pending).toBe(0)
  expect(box.letters).toHaveLength(1)
})

test('keys of the right length that are no point of the curve give one sentence and no crash', async () => {
  const p256dh = `B${'A'.repeat(86)}`
  await push.add({ ...subscription(), keys: { p256dh, auth: RFC.auth } }, 'odd phone')
  await push.send(() => MESSAGE)
  expect(troubles).toHaveLength(1)
  expect(troubles[0]).toMatch(/^push to odd phone failed: /)
})

test('a text that is too long is cut rather than refused', async () => {
  await push.add(subscription(), 'phone')
  await push.send(() => ({ ...MESSAGE, body: 'ü'.repeat(5000) }))
  expect(box.letters[0]!.body.length).toBeLessThan(4096)
})

test('the fifty-first phone is refused in a sentence', async () => {
  for (let i = 0; i < 50; i++) await push.add(subscription(`p${i}`), `phone ${i}`)
  expect(await push.add(subscription('more'), 'more')).toContain('50 phones already')
  expect(push.phones).toHaveLength(50)
})

const browserGives = (endpoint: string, p256dh = RFC.publicKey, auth = RFC.auth) =>
  pushSubscription.safeParse({ endpoint, keys: { p256dh, auth } }).success

test('a subscription must point to a push service outside and carry whole keys', () => {
  expect(browserGives('https://push.example.net/send/abc')).toBe(true)
  expect(browserGives('http://push.example.net/send/abc')).toBe(false)
  expect(browserGives('https://192.168.1.1/admin')).toBe(false)
  expect(browserGives('https://[::1]/')).toBe(false)
  expect(browserGives('https://router/')).toBe(false)
  expect(browserGives('https://push.example.net/', RFC.publicKey.slice(1))).toBe(false)
  expect(browserGives('https://push.example.net/', RFC.publicKey, 'short')).toBe(false)
})
