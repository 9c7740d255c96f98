import type { Clock } from '#core/measure/clock'
import type { AlarmMessage, NoticeMessage } from '#core/wire/live'
import type { WebhookSettings } from '#core/wire/tell-settings'
import { BACK_OFF } from './back-off.ts'
import { Courier, type Verdict } from './courier.ts'
import type { DeadLetter } from './dead-letters.ts'
import type { Kept } from './kept.ts'
import type { Post, PostResult } from './post.ts'
import { signedHeaders } from './webhook-signature.ts'

/** What a letter is about. `alarm.unanswered`: nobody has acknowledged it and everything is being tried. */
export type WebhookType = `alarm.${AlarmMessage['change'] | 'unanswered'}` | 'notice' | 'test'

interface Letter {
  readonly id: string
  readonly madeMs: number
  readonly body: string
}

export interface WebhookParts {
  readonly clock: Clock
  readonly random01: () => number
  readonly post: Post
  readonly settings: WebhookSettings
  /** Unique for this run of the program; makes the letters' ids unique over all runs. */
  readonly boot: string
  readonly dead: Kept<readonly DeadLetter[]>
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
  #count = 0
  #dead: readonly DeadLetter[] = []

  constructor(parts: WebhookParts) {
    this.#parts = parts
    this.#courier = new Courier({
      clock: parts.clock,
      random01: parts.random01,
      backOff: BACK_OFF,
      mostWaiting: MOST_WAITING,
      attempt: (letter) => this.#attempt(letter),
      onDead: (letter, why) => this.#bury(letter, why),
    })
  }

  /** Reads the letters given up in earlier runs. */
  async open(): Promise<void> {
    this.#dead = (await this.#parts.dead.load()) ?? []
  }

  get waiting(): number {
    return this.#courier.waiting
  }

  /** Newest last. */
  get deadLetters(): readonly DeadLetter[] {
    return this.#dead
  }

  alarm(type: WebhookType, message: AlarmMessage): Promise<void> {
    return this.#send(type, this.#parts.settings.details ? message : withoutDetails(message))
  }

  notice(message: NoticeMessage): Promise<void> {
    return this.#send('notice', this.#parts.settings.details ? message : withoutDetails(message))
  }

  test(): Promise<void> {
    return this.#send('test', {})
  }

  #send(type: WebhookType, data: object): Promise<void> {
    const madeMs = this.#parts.clock.nowMs()
    this.#count += 1
    const id = `${this.#parts.boot}-${this.#count}`
    const body = JSON.stringify({ type, timestamp: new Date(madeMs).toISOString(), data })
    return this.#courier.send({ id, madeMs, body })
  }

  async #attempt({ id, body }: Letter): Promise<Verdict> {
    const { settings, clock, post } = this.#parts
    const signed = signedHeaders(settings.secret, id, clock.nowMs(), body)
    const headers = { 'content-type': 'application/json', ...signed }
    return verdictOf(await post({ url: settings.url, headers, body }))
  }

  #bury(letter: Letter, why: string): void {
    const parts = this.#parts
    this.#dead = [...this.#dead, { ...letter, gaveUpMs: parts.clock.nowMs(), why }].slice(-MOST_DEAD)
    parts.onTrouble(`the webhook did not take a letter: ${why}`)
    parts.dead
      .save(this.#dead)
      .catch((error: unknown) => parts.onTrouble(`a letter could not be kept: ${String(error)}`))
  }

  stop(): void {
    this.#courier.stop()
  }
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
