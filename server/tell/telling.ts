import type { Clock } from '#core/measure/clock'
import { callsFor, noCalls, stepEscalation } from '#core/watch/escalation'
import type { CallEffect, CallSubject, EscalationSettings } from '#core/watch/escalation-call'
import type { Escalation, EscalationInput } from '#core/watch/escalation-input'
import { noticeUrgency } from '#core/watch/notice-urgency'
import type { AlarmMessage, NoticeMessage } from '#core/wire/live'
import { isCarried } from './carried.ts'
import type { AwakeState, KeepAwake } from './keep-awake.ts'
import type { Lamp } from './lamp.ts'
import type { NoticeCalls } from './notice-calls.ts'
import type { Pages } from './pages.ts'
import { alarmPush, hushPush, noticePush } from './push-words.ts'
import type { WebPush } from './web-push.ts'
import type { Webhook } from './webhook.ts'

/** `null`: not set up. */
export interface TellingParts {
  readonly clock: Clock
  readonly settings: EscalationSettings
  readonly pages: Pages
  readonly lamp: Lamp | null
  readonly webhook: Webhook | null
  readonly push: WebPush | null
  readonly awake: KeepAwake
  readonly notices: NoticeCalls
}

/** Who would hear an alarm now. */
export interface WhoHears {
  /** Open pages whose sound is on. */
  readonly pages: number
  readonly phones: readonly string[]
  readonly lamp: 'none' | 'connected' | 'away'
  readonly webhook: boolean
  readonly computer: AwakeState
}

/** Takes alarms and notices on their way to people, and keeps calling until somebody answers. */
export class Telling {
  readonly #parts: TellingParts
  #calls: Escalation = noCalls
  /** The newest message of each alarm that is not over. */
  readonly #alarms = new Map<number, AlarmMessage>()
  /** Alarms that phones were called for, so that they can be told of its end. */
  readonly #pushed = new Set<number>()

  constructor(parts: TellingParts) {
    this.#parts = parts
  }

  /** Takes up the alarms that stood when the program ended. */
  resume(open: readonly AlarmMessage[], lastMessageId: number): void {
    for (const message of open) this.#remember(message)
    const alarms = open.map((message) => ({ ...message, sinceMs: Date.parse(message.raisedAt) }))
    this.#calls = callsFor(alarms, lastMessageId)
  }

  /** An alarm changed; pages have been sent this message. */
  alarm(message: AlarmMessage): void {
    this.#remember(message)
    const { clock, pages, webhook } = this.#parts
    if (isCarried({ kind: 'alarm', message })) void webhook?.alarm(message)
    this.#take({
      kind: 'alarm',
      alarm: message,
      atMs: clock.nowMs(),
      messageId: message.id,
      listeners: pages.listeners(),
    })
    if (message.state === 'normal') this.#alarms.delete(message.alarmId)
  }

  #remember(message: AlarmMessage): void {
    this.#alarms.set(message.alarmId, message)
    this.#parts.lamp?.show(message)
  }

  /** A notice was sent to pages. */
  notice(message: NoticeMessage): void {
    if (!isCarried({ kind: 'notice', message })) return
    void this.#parts.webhook?.notice(message)
    this.#callFor(message)
  }

  /** Once the watch knows how things stand: notices that an earlier run was still calling for are called for again. */
  takeUpNotices(): void {
    const { clock, notices } = this.#parts
    for (const notice of notices.takeLeft(clock.nowMs())) this.#callFor(notice)
  }

  #callFor(message: NoticeMessage): void {
    const { clock, pages, notices } = this.#parts
    notices.begin(message)
    const listeners = pages.listeners()
    const urgency = noticeUrgency(message.notice)
    this.#take({ kind: 'notice', noticeId: message.id, urgency, atMs: clock.nowMs(), listeners })
  }

  /** A device has shown everything up to this message and, if `sound`, sounded it. */
  seen(messageId: number, sound: boolean): void {
    this.#take({ kind: 'seen', messageId, sound, atMs: this.#parts.clock.nowMs() })
  }

  /** Called by the loop of the watch alone, each time round. */
  tick(): void {
    this.#parts.lamp?.beat()
    this.#take({ kind: 'tick', atMs: this.#parts.clock.nowMs() })
    this.#settleNotices()
  }

  whoHears(): WhoHears {
    const { pages, push, lamp, webhook, awake } = this.#parts
    return {
      pages: pages.listeners(),
      phones: push?.phones.map((phone) => phone.title) ?? [],
      lamp: lamp === null ? 'none' : lamp.isConnected ? 'connected' : 'away',
      webhook: webhook !== null,
      computer: awake.state,
    }
  }

  #take(input: EscalationInput): void {
    const step = stepEscalation(this.#calls, input, this.#parts.settings)
    this.#calls = step.state
    for (const effect of step.effects) this.#perform(effect)
  }

  #perform(effect: CallEffect): void {
    switch (effect.kind) {
      case 'hush':
        return this.#hush(effect.subject)
      case 'call':
        return this.#call(effect)
      default:
        return effect satisfies never
    }
  }

  /** Without a phone that could be called, the next means are the rest of them. */
  #call({ subject, means, loudness, attempt }: CallEffect & { kind: 'call' }): void {
    const isAll = means.includes('webhook') || (means.includes('push') && !this.#hasPhones)
    if (means.includes('page')) this.#parts.pages.call({ ...idsOf(subject), loudness, attempt })
    if (means.includes('push')) this.#pushFor(subject)
    if (isAll && subject.kind === 'alarm') this.#callElsewhere(subject.alarmId, loudness !== 'tone')
  }

  get #hasPhones(): boolean {
    return (this.#parts.push?.phones.length ?? 0) > 0
  }

  #pushFor(subject: CallSubject): void {
    const { push } = this.#parts
    if (push === null) return
    if (subject.kind === 'notice') {
      const notice = this.#parts.notices.find(subject.noticeId)
      if (notice !== undefined) void push.send(noticePush(notice))
      return
    }
    const alarm = this.#alarms.get(subject.alarmId)
    if (alarm === undefined) return
    this.#pushed.add(subject.alarmId)
    void push.send(alarmPush(alarm))
  }

  #callElsewhere(alarmId: number, isUrgent: boolean): void {
    const message = this.#alarms.get(alarmId)
    if (message === undefined) return
    if (isUrgent) this.#parts.lamp?.makeLoud(alarmId)
    void this.#parts.webhook?.unanswered(message)
  }

  #hush(subject: CallSubject): void {
    if (subject.kind !== 'alarm' || !this.#pushed.delete(subject.alarmId)) return
    const message = this.#alarms.get(subject.alarmId)
    if (message !== undefined) void this.#parts.push?.send(hushPush(message))
  }

  #settleNotices(): void {
    const isCalled = (id: number) =>
      this.#calls.calls.some((c) => c.subject.kind === 'notice' && c.subject.noticeId === id)
    this.#parts.notices.settleUnless((id) => isCalled(id) || this.#parts.push?.isUnderWay(id) === true)
  }

  async stop(): Promise<void> {
    const { webhook, push, lamp } = this.#parts
    webhook?.stop()
    push?.stop()
    await lamp?.stop()
  }
}

const idsOf = (subject: CallSubject) => ({
  alarmId: subject.kind === 'alarm' ? subject.alarmId : null,
  noticeId: subject.kind === 'notice' ? subject.noticeId : null,
})
