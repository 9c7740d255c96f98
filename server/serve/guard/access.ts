import { createHash, createHmac, timingSafeEqual } from 'node:crypto'
import type { IncomingMessage } from 'node:http'
import { isLoopbackHost } from './stranger.ts'

/** How somebody got in: by sitting at this computer, by a bridge's key, or by having logged in. */
export type Entry = 'here' | 'key' | 'person'

export interface AccessRules {
  /** Keys that bridges and devices show; the bridge beside the server has one of its own. */
  readonly keys: readonly string[]
  readonly passphrase: string | null
}

const COOKIE = 'holdfast'
const SESSION_MS = 30 * 24 * 3_600_000

/**
 * Who may come in. From this very computer everybody may, as long as no passphrase is set; a request that a
 * proxy passed on comes from elsewhere. Sessions are signed with the passphrase, so they survive a restart of
 * the server and end when the passphrase is changed.
 */
export class Access {
  readonly #rules: AccessRules

  constructor(rules: AccessRules) {
    this.#rules = rules
  }

  /** `null`: not let in. `shownKey`: a key shown elsewhere than in the header, as a websocket does. */
  entryOf(request: IncomingMessage, nowMs: number, shownKey?: string): Entry | null {
    const key = shownKey ?? bearer(request)
    if (key !== null && this.#rules.keys.some((known) => isSame(known, key))) return 'key'
    if (this.#hasSession(request, nowMs)) return 'person'
    if (this.#rules.passphrase === null && isFromHere(request)) return 'here'
    return null
  }

  /** The cookie of a new session, or `null` for a wrong passphrase. */
  logIn(passphrase: string, nowMs: number): string | null {
    const known = this.#rules.passphrase
    if (known === null || !isSame(known, passphrase)) return null
    const untilMs = nowMs + SESSION_MS
    const age = SESSION_MS / 1000
    return `${COOKIE}=${untilMs}.${this.#sign(untilMs)}; Path=/; Max-Age=${age}; HttpOnly; SameSite=Strict`
  }

  get asksForPassphrase(): boolean {
    return this.#rules.passphrase !== null
  }

  #hasSession(request: IncomingMessage, nowMs: number): boolean {
    if (this.#rules.passphrase === null) return false
    const [until, signature] = cookie(request).split('.')
    const untilMs = Number(until)
    return signature !== undefined && untilMs > nowMs && isSame(this.#sign(untilMs), signature)
  }

  #sign(untilMs: number): string {
    return createHmac('sha256', `holdfast session ${this.#rules.passphrase}`)
      .update(String(untilMs))
      .digest('hex')
  }
}

function bearer(request: IncomingMessage): string | null {
  return /^Bearer (\S{1,512})$/.exec(request.headers.authorization ?? '')?.[1] ?? null
}

function cookie(request: IncomingMessage): string {
  const all = (request.headers.cookie ?? '').split(';').map((part) => part.trim())
  return all.find((part) => part.startsWith(`${COOKIE}=`))?.slice(COOKIE.length + 1) ?? ''
}

function isFromHere(request: IncomingMessage): boolean {
  if (request.headers['x-forwarded-for'] !== undefined || request.headers.forwarded !== undefined)
    return false
  return isLoopbackHost((request.socket.remoteAddress ?? '').replace(/^::ffff:/, ''))
}

/** In a time that does not tell how much of it was right. */
const isSame = (known: string, shown: string): boolean => timingSafeEqual(digest(known), digest(shown))

const digest = (text: string): Buffer => createHash('sha256').update(text).digest()
