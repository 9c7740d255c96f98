import { mkdtemp, readdir, rm } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import type { AlarmMessage, NoticeMessage } from '#core/wire/live'
import { escalationSettings, pushSettings, webhookSettings } from '#core/wire/tell-settings'
import { alarmMessage } from '../../kit/alarm-message.ts'
import { FakeBroker } from '../../kit/fake-broker.ts'
import { HandClock } from '../../kit/hand-clock.ts'
import type { Message } from '../../../server/store/messages.ts'
import { KeepAwake } from '../../../server/tell/keep-awake.ts'
import { keptInFolder } from '../../../server/tell/kept-values.ts'
import type { Post } from '../../../server/tell/post.ts'
import { TellDesk, type TellSettings } from '../../../server/tell/tell-desk.ts'

let folder: string
let clock: HandClock
let brokers: FakeBroker[]
let standing: AlarmMessage[]
let told: Message[]
let post: Post
const calls: string[] = []

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'tell-'))
  clock = new HandClock(Date.parse('2026-03-12T14:32:05Z'))
  brokers = []
  standing = []
  told = []
  post = () => Promise.resolve({ kind: 'answered', status: 404 })
  calls.length = 0
})
afterEach(() => rm(folder, { recursive: true }))

const open = (settings: TellSettings) =>
  TellDesk.open(
    {
      clock,
      random01: () => 0,
      boot: 'b1',
      pages: { listeners: () => 1, call: (c) => calls.push(c.loudness), test: () => undefined },
      awake: new KeepAwake(clock, () => ({ end: () => undefined })),
      kept: keptInFolder(folder),
      post: (request) => post(request),
      openBroker: () => {
        const broker = new FakeBroker()
        brokers.push(broker)
        return broker
      },
      person: () => ({ unit: 'C', zone: 'UTC', language: 'en' }),
      names: () => ({ pots: { heron: 'Heron' } }),
      onTrouble: () => undefined,
      standing: () => ({ alarms: standing, lastId: 1 }),
      told: () => Promise.resolve(told),
    },
    settings,
  )

const LAMP = { url: 'mqtt://127.0.0.1:1883' }
const WEBHOOK = webhookSettings.parse({ url: 'https://hooks.example.com/', secret: 'A'.repeat(32) })

test('with no settings pages are called and nothing else is set up', async () => {
  const desk = await open({})
  desk.ways.telling.alarm(alarmMessage())
  expect(calls).toEqual(['repeat'])
  expect(desk.ways).toMatchObject({ lamp: null, webhook: null, push: null })
  expect(await readdir(folder)).toEqual([])
  await desk.close()
})

test('push is there when it is asked for, with keys that outlive the program', async () => {
  const push = pushSettings.parse({})
  const first = await open({ push })
  const second = await open({ push })
  expect(second.ways.push!.publicKey).toBe(first.ways.push!.publicKey)
  expect((await open({ push: { ...push, enabled: false } })).ways.push).toBeNull()
})

test('a lamp written into the settings shows what stands; taken out it says that the watch is gone', async () => {
  const desk = await open({})
  standing = [alarmMessage()]
  await desk.apply({ lamp: LAMP })
  brokers[0]!.connect()
  desk.ways.telling.tick()
  expect(brokers[0]!.retained.get('holdfast/heron/level')).toBe('3')
  expect(brokers[0]!.retained.get('holdfast/alive')).toBe('1')
  await desk.apply({})
  expect(brokers[0]!.retained.get('holdfast/alive')).toBe('0')
  await desk.close()
})

test('settings that say the same as before leave everything as it is', async () => {
  const desk = await open({ lamp: LAMP })
  const { ways } = desk
  await desk.apply({ lamp: { ...LAMP } })
  expect(desk.ways).toBe(ways)
  await desk.close()
})

test('the times of the escalation can be set', async () => {
  const desk = await open({ escalation: escalationSettings.parse({ acknowledgeS: 20 }) })
  desk.ways.telling.alarm(alarmMessage())
  clock.advance(20_000)
  desk.ways.telling.tick()
  expect(calls).toEqual(['repeat', 'loud'])
  await desk.close()
})

test('letters that were given up are shown in the next run', async () => {
  const desk = await open({ webhook: WEBHOOK })
  await desk.ways.webhook!.test()
  await desk.close()
  await expect
    .poll(async () => (await open({ webhook: WEBHOOK })).ways.webhook!.deadLetters.map((l) => l.why))
    .toEqual(['it answered with status 404'])
})

test('a test alarm and its answers are kept', async () => {
  const desk = await open({})
  const { testId } = await desk.ways.testAlarm.start()
  await desk.ways.testAlarm.heard(testId, 'kitchen')
  const next = await open({})
  expect(next.ways.testAlarm.tests[0]?.answers.map((a) => a.device)).toEqual(['kitchen'])
  expect((await next.ways.testAlarm.start()).testId).toBe(testId + 1)
})

// Keys of a browser: those of the example in RFC 8291 Appendix A.
const PHONE = {
  endpoint: 'https://push.example.com/phone',
  keys: {
    p256dh: 'BCVxsr7N_eNgVRqvHtD0zTZsEc6-VV-JvLexhqUzORcxaOzi6-AYWXvTBHm4bjyPjs7Vd8pZGH6SRpkNtoIAiw4',
    auth: 'BTBZMqHH6r4Tts7J_aSIgg',
  },
}

const noticeAt = (at: string): NoticeMessage => ({
  id: 7,
  notice: 'turn-due',
  pot: 'heron',
  batch: 1,
  stage: 'mordant',
  at,
  tempC: 82,
  text: 'Heron: turn the goods.',
})

/** A run in which a phone is to be pushed for a notice, ended by nothing as a crash ends it; `made`: pushes of each run. */
async function crashAfter(notice: NoticeMessage, answer: Awaited<ReturnType<Post>>) {
  const settings = { push: pushSettings.parse({}) }
  let made = 0
  post = () => {
    made += 1
    return Promise.resolve(answer)
  }
  const first = await open(settings)
  await first.ways.push!.add(PHONE, 'phone')
  first.ways.telling.notice(notice)
  clock.advance(15_000)
  first.ways.telling.tick()
  await expect.poll(() => made).toBe(1)
  first.ways.telling.tick()
  told = [{ kind: 'notice', message: notice }]
  return async () => {
    // What died is called by no clock any more.
    clock = new HandClock(clock.nowMs())
    made = 0
    const next = await open(settings)
    next.takeUpLetters()
    clock.advance(15_000)
    next.ways.telling.tick()
    await next.close()
    return made
  }
}

test('a notice whose push waited for its service when the program died is pushed by the next run', async () => {
  const notice = noticeAt('2026-03-12T14:32:00Z')
  const nextRun = await crashAfter(notice, { kind: 'no-answer', why: 'no line' })
  expect(await nextRun()).toBe(1)
})

test('a notice that had reached its phone is not pushed again', async () => {
  const notice = noticeAt('2026-03-12T14:32:00Z')
  const nextRun = await crashAfter(notice, { kind: 'answered', status: 201 })
  const kept = keptInFolder(folder).notices
  await expect.poll(async () => (await kept.load())?.seenId).toBe(7)
  expect(await nextRun()).toBe(0)
})

test('a notice of longer ago than ten minutes calls nobody any more', async () => {
  const notice = noticeAt('2026-03-12T14:32:00Z')
  const nextRun = await crashAfter(notice, { kind: 'no-answer', why: 'no line' })
  clock.advance(10 * 60_000)
  expect(await nextRun()).toBe(0)
})
