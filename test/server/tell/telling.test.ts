import { beforeEach, expect, test } from 'vitest'
import { ESCALATION_DEFAULTS } from '#core/watch/escalation-call'
import type { AlarmMessage, CallMessage, NoticeMessage, TestMessage } from '#core/wire/live'
import { webhookSettings } from '#core/wire/tell-settings'
import { alarmMessage } from '../../kit/alarm-message.ts'
import { FakeBroker } from '../../kit/fake-broker.ts'
import { HandClock } from '../../kit/hand-clock.ts'
import { KeptMemory } from '../../kit/kept-memory.ts'
import { openPushMessage } from '../../kit/push-receiver.ts'
import { KeepAwake } from '../../../server/tell/keep-awake.ts'
import { Lamp } from '../../../server/tell/lamp.ts'
import { NoticeCalls } from '../../../server/tell/notice-calls.ts'
import type { Phone } from '../../../server/tell/phone.ts'
import type { PostRequest } from '../../../server/tell/post.ts'
import { Telling } from '../../../server/tell/telling.ts'
import { TestAlarm, type TestReport } from '../../../server/tell/test-alarm.ts'
import { type VapidKeys, openVapidKeys } from '../../../server/tell/vapid-keys.ts'
import { WebPush } from '../../../server/tell/web-push.ts'
import type { DeadLetter } from '../../../server/tell/dead-letters.ts'
import { LetterBook, type LetterNote } from '../../../server/tell/letter-book.ts'
import { Webhook } from '../../../server/tell/webhook.ts'

// Keys of a browser: those of the example in RFC 8291 Appendix A.
const PHONE = {
  publicKey: 'BCVxsr7N_eNgVRqvHtD0zTZsEc6-VV-JvLexhqUzORcxaOzi6-AYWXvTBHm4bjyPjs7Vd8pZGH6SRpkNtoIAiw4',
  privateKey: 'q1dXpw3UpT5VOmu_cf_v6ih07Aems3njxI-JWgLcM94',
  auth: 'BTBZMqHH6r4Tts7J_aSIgg',
}

/** A studio with everything set up; `told`: what reached whom, `second who: what`. */
class Studio {
  readonly clock = new HandClock(Date.parse('2026-03-12T14:32:05Z'))
  readonly startMs = this.clock.nowMs()
  readonly told: string[] = []
  listeners = 1
  readonly broker = new FakeBroker()
  readonly lamp = new Lamp(this.clock, this.broker)
  readonly pages = {
    listeners: () => this.listeners,
    call: (call: CallMessage) => this.note('page', `${call.loudness} #${call.attempt}`),
    test: (t: TestMessage) => this.note('page', `test ${t.testId}`),
  }
  readonly webhook = new Webhook({
    clock: this.clock,
    random01: () => 0,
    post: (request) => this.post(request),
    settings: webhookSettings.parse({ url: 'https://hooks.example.com/', secret: 'A'.repeat(32) }),
    boot: 'b1',
    dead: new KeptMemory<readonly DeadLetter[]>(),
    book: new LetterBook({ kept: new KeptMemory<LetterNote>(), onTrouble: () => undefined }),
    onTrouble: (sentence) => this.note('trouble', sentence),
  })
  readonly awake = new KeepAwake(this.clock, () => ({ end: () => undefined }))
  push!: WebPush
  telling!: Telling
  testAlarm!: TestAlarm

  async open(): Promise<this> {
    this.push = new WebPush({
      clock: this.clock,
      random01: () => 0,
      post: (request) => this.post(request),
      keys: await openVapidKeys(vapid),
      contact: 'mailto:dyer@saltmarsh.example',
      phones: new KeptMemory<readonly Phone[]>(),
      person: () => ({ unit: 'C', zone: 'UTC', language: 'en' }),
      names: () => ({ pots: { heron: 'Heron' } }),
      onTrouble: (sentence) => this.note('trouble', sentence),
    })
    const { clock, pages, lamp, webhook, push, awake } = this
    const notices = new NoticeCalls(null)
    this.telling = new Telling({
      clock,
      settings: ESCALATION_DEFAULTS,
      pages,
      lamp,
      webhook,
      push,
      awake,
      notices,
    })
    const kept = new KeptMemory<readonly TestReport[]>()
    this.testAlarm = new TestAlarm({ clock, pages, lamp, webhook, push, kept })
    this.broker.connect()
    return this
  }
  async addPhone() {
    const keys = { p256dh: PHONE.publicKey, auth: PHONE.auth }
    await this.push.add({ endpoint: 'https://push.example.net/one', keys }, "Ina's phone")
  }
  post({ url, body }: PostRequest) {
    if (url.startsWith('https://push')) this.note('phone', titleOf(openPushMessage(PHONE, Buffer.from(body))))
    else this.note('webhook', (JSON.parse(String(body)) as { type: string }).type)
    return Promise.resolve({ kind: 'answered', status: 201 } as const)
  }
  note(who: string, what: string) {
    this.told.push(`${(this.clock.nowMs() - this.startMs) / 1000} ${who}: ${what}`)
  }
  wait(seconds: number) {
    for (let i = 0; i < seconds; i++) {
      this.clock.advance(1000)
      this.telling.tick()
    }
  }
  get level() {
    return this.broker.retained.get('holdfast/heron/level')
  }
}

const vapid = new KeptMemory<VapidKeys>()
const titleOf = (json: string) => (JSON.parse(json) as { title: string }).title
const settle = () => new Promise<void>((resolve) => setImmediate(resolve))

const answered: Partial<AlarmMessage> = {
  id: 2,
  change: 'acknowledged',
  state: 'acknowledged',
  acknowledgedBy: 'Ina',
}

let studio: Studio
beforeEach(async () => {
  studio = await new Studio().open()
})

test('an alarm that nobody answers: page, after 10 s the phone, after 60 s everything; then Ina comes', async () => {
  await studio.addPhone()
  studio.telling.alarm(alarmMessage())
  expect(studio.level).toBe('3')
  studio.wait(61)
  expect(studio.level).toBe('4')
  studio.telling.alarm(alarmMessage(answered))
  expect(studio.level).toBe('1')
  studio.wait(600)
  await settle()
  expect(studio.told).toEqual([
    '0 webhook: alarm.raised',
    '0 page: repeat #1',
    '10 page: repeat #2',
    '10 phone: Come now',
    '60 page: loud #3',
    '60 phone: Come now',
    '60 webhook: alarm.unanswered',
    '61 webhook: alarm.acknowledged',
    '61 phone: Ina is there',
  ])
})

test('a page that sounded it spares the phone; a phone that was not called is not told of the end', async () => {
  await studio.addPhone()
  studio.telling.alarm(alarmMessage())
  studio.wait(2)
  studio.telling.seen(1, true)
  studio.wait(20)
  studio.telling.alarm(alarmMessage(answered))
  await settle()
  expect(studio.told.filter((t) => t.includes('phone'))).toEqual([])
})

test('where no phone asked to be called, lamp and webhook come next', () => {
  studio.telling.alarm(alarmMessage())
  studio.wait(10)
  expect(studio.level).toBe('4')
  expect(studio.told.at(-1)).toBe('10 webhook: alarm.unanswered')
})

test('in an empty house the phone is called at once', async () => {
  await studio.addPhone()
  studio.listeners = 0
  studio.telling.alarm(alarmMessage())
  expect(studio.told).toContain('0 phone: Come now')
})

test('what is for the morning goes nowhere', () => {
  studio.telling.alarm(alarmMessage({ urgency: 'morning' }))
  studio.telling.alarm(alarmMessage({ alarmId: 2, urgency: 'log' }))
  studio.wait(700)
  expect([studio.told, studio.level]).toEqual([[], '0'])
})

const notice = (more: Partial<NoticeMessage> = {}): NoticeMessage => ({
  id: 5,
  notice: 'hold-done',
  pot: 'heron',
  batch: 7,
  stage: 'dye',
  at: '2026-03-12T14:32:05.000Z',
  tempC: 70,
  text: 'Heron: the hold is done.',
  ...more,
})

test('a notice: one tone, a phone when no page had it; a mark on the trace is no notice to anybody', async () => {
  await studio.addPhone()
  studio.telling.notice(notice())
  studio.telling.notice(notice({ id: 6, notice: 'hold-paused' }))
  studio.wait(700)
  await settle()
  expect(studio.told).toEqual([
    '0 webhook: notice',
    '0 page: tone #1',
    '10 page: tone #2',
    '10 phone: Notice',
  ])
})

test('after a restart a standing alarm is called at once by everything, and lamps show it', async () => {
  await studio.addPhone()
  studio.clock.advance(120_000)
  studio.telling.resume([alarmMessage(), alarmMessage({ alarmId: 2, pot: 'wren', ...answered })], 2)
  expect(studio.level).toBe('3')
  studio.wait(1)
  await settle()
  expect(studio.told.map((t) => t.split(' ').slice(1).join(' '))).toEqual([
    'page: loud #2',
    'phone: Come now',
    'webhook: alarm.unanswered',
  ])
})

test('who would hear an alarm now', async () => {
  expect(studio.telling.whoHears()).toEqual({
    pages: 1,
    phones: [],
    lamp: 'connected',
    webhook: true,
    computer: { kind: 'not-needed' },
  })
  await studio.addPhone()
  studio.listeners = 0
  studio.broker.isConnected = false
  studio.awake.want(true)
  expect(studio.telling.whoHears()).toMatchObject({ pages: 0, phones: ["Ina's phone"], lamp: 'away' })
})

test('a test alarm goes by every means and writes down who answered, each device once', async () => {
  await studio.addPhone()
  const { testId } = await studio.testAlarm.start()
  expect(studio.told).toEqual(['0 page: test 1', '0 webhook: test', '0 phone: Test alarm'])
  expect(studio.broker.retained.get('holdfast/level')).toBe('3')
  studio.clock.advance(5000)
  expect(await studio.testAlarm.heard(testId, 'kitchen tablet')).toBeNull()
  expect(await studio.testAlarm.heard(testId, 'kitchen tablet')).toBeNull()
  expect(await studio.testAlarm.heard(99, 'kitchen tablet')).toContain('no test alarm')
  expect(studio.testAlarm.tests).toEqual([
    {
      testId: 1,
      startedMs: studio.startMs,
      called: { pages: 1, phones: 1, lamp: true, webhook: true },
      answers: [{ device: 'kitchen tablet', atMs: studio.startMs + 5000 }],
    },
  ])
})

test('nothing goes on after stop', async () => {
  studio.telling.alarm(alarmMessage())
  await studio.testAlarm.start()
  await studio.telling.stop()
  expect(studio.clock.pending).toBe(0)
})
