import { createHash } from 'node:crypto'
import type { Clock } from '#core/measure/clock'
import type { AlarmMessage, NoticeMessage } from '#core/wire/live'
import type { WebhookSettings } from '#core/wire/tell-settings'
import type { Message } from '../store/messages.ts'
import { BACK_OFF } from './back-off.ts'
import { isCarried, isNoticeFresh } from './carried.ts'
import { Courier, type Verdict } from './courier.ts'
import type { DeadLetter } from './dead-letters.ts'
import type { Kept } from './kept.ts'
import type { LetterBook } from './letter-book.ts'
import type { Post, PostResult } from './post.ts'
import { signedHeaders } from './webhook-signature.ts'

/** What a letter is about. `alarm.unanswered`: nobody has acknowledged it and everything is being tried. */
export type WebhookType = `alarm.${AlarmMessage['change'] | 'unanswered'}` | 'notice' | 'test'

interface Letter {
  readonly id: string
  readonly madeMs: number
  readonly body: string
  /** The message of the record that it carries; `null` for a call or a test. */
  readonly messageId: number | null
}

export interface WebhookParts {
  readonly clock: Clock
  readonly random01: () => number
  readonly post: Post
  readonly settings: WebhookSettings
  /** Unique for this run of the program; makes the ids of calls and tests unique over all runs. */
  readonly boot: string
  readonly dead: Kept<readonly DeadLetter[]>
  /** Which messages have arrived. */
  readonly book: LetterBook
  /** Told once for each letter that was given up. */
  onTrouble(sentence: string): void
}

/** Enough to see what went wrong over a holiday; a receiver that is away for longer needs no more. */
const MOST_DEAD = 100
const MOST_WAITING = 200

/** Tells another program of alarms by signed letters, tries again while it is away, and keeps what it gave up. */
export class Webhook {
  readonly #parts: WebhookParts
  readonly #courier: Courier<Letter>
  /** Messages whose letters an earlier run did not bring. */
  #left: readonly Message[] = []
  #count = 0
  #dead: readonly DeadLetter[] = []

  constructor(parts: WebhookParts) {
    this.#parts = parts
    this.#courier = new Courier({
      clock: parts.clock,
      random01: parts.random01,
      backOff: BACK_OFF,
      mostWaiting: MOST_WAITING,
      attempt: (letter, signal) => this.#attempt(letter, signal),
      onDelivered: (letter) => this.#settle(letter),
      onDead: (letter, why) => this.#bury(letter, why),
    })
  }

  /** Reads the letters given up in earlier runs, and which of the messages `told` of late did not arrive. */
  async open(told: readonly Message[]): Promise<void> {
    this.#dead = (await this.#parts.dead.load()) ?? []
    this.#left = await this.#parts.book.open(told.filter(isCarried), told.at(-1)?.message.id ?? 0)
  }

  /** Sends what an earlier run did not bring and is still true; `standing`: the alarms that are not over. */
  takeUp(standing: readonly AlarmMessage[]): void {
    const left = this.#left
    this.#left = []
    const standingIds = new Set(standing.map((alarm) => alarm.alarmId))
    // Decided before the first is sent: what one comes to must not change the next.
    const isTrue = left.map((told) => this.#isStillTrue(told, standingIds))
    for (const [i, told] of left.entries())
      if (isTrue[i] === true) void this.#carry(told)
      else this.#parts.book.settle(told.message.id)
  }

  /** The end of an alarm is news to whoever was told of its beginning, which has the alarm's own number. */
  #isStillTrue({ kind, message }: Message, standingIds: ReadonlySet<number>): boolean {
    if (kind === 'notice') return isNoticeFresh(message, this.#parts.clock.nowMs())
    const isEnd = message.state === 'normal'
    return standingIds.has(message.alarmId) || (isEnd && !this.#parts.book.isWaiting(message.alarmId))
  }

  get waiting(): number {
    return this.#courier.waiting
  }

  /** Newest last. */
  get deadLetters(): readonly DeadLetter[] {
    return this.#dead
  }

  alarm(message: AlarmMessage): Promise<void> {
    return this.#carry({ kind: 'alarm', message })
  }

  notice(message: NoticeMessage): Promise<void> {
    return this.#carry({ kind: 'notice', message })
  }

  /** Nobody answers: a call, made again until somebody does. */
  unanswered(message: AlarmMessage): Promise<void> {
    return this.#send(this.#nextId(), 'alarm.unanswered', this.#shown(message))
  }

  test(): Promise<void> {
    return this.#send(this.#nextId(), 'test', {})
  }

  #carry({ kind, message }: Message): Promise<void> {
    const type = kind === 'notice' ? 'notice' : (`alarm.${message.change}` as const)
    this.#parts.book.begin(message.id)
    return this.#send(messageLetterId(message), type, this.#shown(message), message.id)
  }

  #shown(message: AlarmMessage | NoticeMessage): object {
    return this.#parts.settings.details ? message : withoutDetails(message)
  }

  #nextId(): string {
    this.#count += 1
    return `${this.#parts.boot}-${this.#count}`
  }

  #send(id: string, type: WebhookType, data: object, messageId: number | null = null): Promise<void> {
    const madeMs = this.#parts.clock.nowMs()
    const body = JSON.stringify({ type, timestamp: new Date(madeMs).toISOString(), data })
    return this.#courier.send({ id, madeMs, body, messageId })
  }

  #settle({ messageId }: Letter): void {
    if (messageId !== null) this.#parts.book.settle(messageId)
  }

  async #attempt({ id, body }: Letter, signal: AbortSignal): Promise<Verdict> {
    const { settings, clock, post } = this.#parts
    const signed = signedHeaders(settings.secret, id, clock.nowMs(), body)
    const headers = { 'content-type': 'application/json', ...signed }
    return verdictOf(await post({ url: settings.url, headers, body, signal }))
  }

  #bury(letter: Letter, why: string): void {
    const parts = this.#parts
    this.#settle(letter)
    const { id, madeMs, body } = letter
    this.#dead = [...this.#dead, { id, madeMs, body, gaveUpMs: parts.clock.nowMs(), why }].slice(-MOST_DEAD)
    parts.onTrouble(`the webhook did not take a letter: ${why}`)
    parts.dead
      .save(this.#dead)
      .catch((error: unknown) => parts.onTrouble(`a letter could not be kept: ${String(error)}`))
  }

  stop(): void {
    this.#courier.stop()
  }
}

/** The same for the same message of the same record in every run, so that whoever has had it knows it again. */
function messageLetterId(message: AlarmMessage | NoticeMessage): string {
  const print = createHash('sha256').update(JSON.stringify(message)).digest('base64url')
  return `m${message.id}-${print.slice(0, 12)}`
}

/** What tells of people or of a customer's work stays at home unless the dyer says otherwise. */
function withoutDetails<M extends AlarmMessage | NoticeMessage>(message: M): Partial<M> {
  const { text: _text, batch: _batch, ...rest } = message
  if (!('acknowledgedBy' in rest)) return rest as Partial<M>
  const { acknowledgedBy: _who, ...alarm } = rest
  return alarm as Partial<M>
}

/** Statuses that may pass by themselves: request timeout, too early, too many requests (RFC 9110, 8470, 6585). */
const PASSING: ReadonlySet<number> = new Set([408, 425, 429])

/** A redirect is refused: the letter was meant for the address that the dyer wrote, not for wherever that points. */
function verdictOf(result: PostResult): Verdict {
  if (result.kind === 'no-answer') return { kind: 'again', why: result.why }
  const { status } = result
  if (status >= 200 && status < 300) return { kind: 'delivered' }
  const why = `it answered with status ${status}`
  if (status >= 300 && status < 400) return { kind: 'dead', why: `${why}, a redirect, which is not followed` }
  return status >= 500 || PASSING.has(status) ? { kind: 'again', why } : { kind: 'dead', why }
}
