import type { Clock } from '#core/measure/clock'
import type { Names } from '#core/words/names'
import type { Person } from '#core/words/person'
import type { PushSubscriptionRecord } from '#core/wire/tell-settings'
import { Courier, type Verdict } from './courier.ts'
import type { Kept } from './kept.ts'
import type { Phone } from './phone.ts'
import type { Post } from './post.ts'
import { type PushMessage, pushLetter } from './push-letter.ts'
import type { PushFor } from './push-words.ts'
import type { VapidKeys } from './vapid-keys.ts'

export interface WebPushParts {
  readonly clock: Clock
  readonly random01: () => number
  readonly post: Post
  readonly keys: VapidKeys
  readonly contact: string
  readonly phones: Kept<readonly Phone[]>
  /** How the studio reads, and what pots and stages are called now. */
  readonly person: () => Person
  readonly names: () => Names
  onTrouble(sentence: string): void
}

interface Letter {
  readonly phone: Phone
  readonly message: PushMessage
}

/** A call is made again by the escalation; a letter need not outlive the next one by much. */
const BACK_OFF = { firstMs: 3_000, mostMs: 60_000, tries: 6 }
/** A studio has fewer; a visitor must not fill the disk with phones. */
const MOST_PHONES = 50
const MOST_WAITING = 500

/** Push to the phones that asked for it, and the list of those phones. */
export class WebPush {
  readonly #parts: WebPushParts
  readonly #courier: Courier<Letter>
  #phones: readonly Phone[] = []

  constructor(parts: WebPushParts) {
    this.#parts = parts
    this.#courier = new Courier({
      clock: parts.clock,
      random01: parts.random01,
      backOff: BACK_OFF,
      mostWaiting: MOST_WAITING,
      attempt: (letter, signal) => this.#attempt(letter, signal),
      onDead: ({ phone }, why) => parts.onTrouble(`push to ${phone.title} failed: ${why}`),
    })
  }

  /** Reads the phones of earlier runs. */
  async open(): Promise<void> {
    this.#phones = (await this.#parts.phones.load()) ?? []
  }

  /** What a browser needs to ask for push. */
  get publicKey(): string {
    return this.#parts.keys.publicKey
  }

  get phones(): readonly Phone[] {
    return this.#phones
  }

  /** Adds a phone, or names it anew; `null`, or one sentence when there is no room. Resolves when it is kept. */
  async add(
    subscription: PushSubscriptionRecord,
    title: string,
    person: Person | null = null,
  ): Promise<string | null> {
    const others = this.#others(subscription.endpoint)
    if (others.length >= MOST_PHONES)
      return `there are ${MOST_PHONES} phones already; take one off the list first`
    await this.#keep([...others, { subscription, title, addedMs: this.#parts.clock.nowMs(), person }])
    return null
  }

  /** Whether it was there. */
  async remove(endpoint: string): Promise<boolean> {
    const others = this.#others(endpoint)
    if (others.length === this.#phones.length) return false
    await this.#keep(others)
    return true
  }

  /** Sends to every phone in its own words; resolves after the first try at each. */
  async send(messageFor: PushFor): Promise<void> {
    const { person, names } = this.#parts
    await Promise.all(
      this.#phones.map((phone) => {
        const reader = { person: phone.person ?? person(), names: names(), title: phone.title }
        return this.#courier.send({ phone, message: messageFor(reader) })
      }),
    )
  }

  /** Whether a phone has not had this message yet and is still being tried. */
  isUnderWay(messageId: number): boolean {
    return this.#courier.isCarrying(({ message }) => message.id === messageId)
  }

  #others(endpoint: string): readonly Phone[] {
    return this.#phones.filter((phone) => phone.subscription.endpoint !== endpoint)
  }

  async #keep(phones: readonly Phone[]): Promise<void> {
    this.#phones = phones
    await this.#parts.phones.save(phones)
  }

  async #attempt({ phone, message }: Letter, signal: AbortSignal): Promise<Verdict> {
    const { endpoint } = phone.subscription
    if (!this.#phones.some((p) => p.subscription.endpoint === endpoint)) return { kind: 'delivered' }
    const { post, keys, contact } = this.#parts
    const result = await post({ ...pushLetter(phone.subscription, message, keys, contact), signal })
    if (result.kind === 'no-answer') return { kind: 'again', why: result.why }
    if (isGone(result.status)) return this.#gone(phone)
    return verdictOf(result.status)
  }

  async #gone(phone: Phone): Promise<Verdict> {
    await this.remove(phone.subscription.endpoint)
    return { kind: 'dead', why: 'it does not want to be called any more and was taken off the list' }
  }

  stop(): void {
    this.#courier.stop()
  }
}

/** The subscription has ended (RFC 8030 §7.3 and §5). */
const isGone = (status: number): boolean => status === 404 || status === 410

function verdictOf(status: number): Verdict {
  if (status >= 200 && status < 300) return { kind: 'delivered' }
  const why = `the push service answered with status ${status}`
  return { kind: status >= 500 || status === 429 ? 'again' : 'dead', why }
}
