import { z } from 'zod'
import type { Cancel, Clock } from '#core/measure/clock'
import { type BridgeSettings, brokerSettings, probeLimit } from '#core/wire/bridge-link'
import { decodeProbe, type ProbeSettings } from '#core/wire/probe-settings'
import { lampSettings } from '#core/wire/tell-settings'
import type { Outbox } from './outbox.ts'
import type { Answer, ServerWay } from './server-way.ts'

export interface SettingsPollParts {
  readonly way: ServerWay
  readonly outbox: Outbox
  readonly clock: Clock
  readonly bridge: string
  /** It is the server's own bridge, started beside it. */
  readonly isOwn: boolean
  /** The server answered for the first time, whatever it said. */
  readonly onContact: () => void
  readonly onSettings: (settings: BridgeSettings) => void
  readonly onSay: (sentence: string) => void
}

const EVERY_MS = 2000
const KEPT_AS = 'settings'
/** A clock that is off by less is left alone, ms: the way there and back takes time too. */
const CLOCK_OFF_MS = 2000

const shape = z.object({
  probes: z.array(z.unknown()),
  find: z.boolean(),
  broker: brokerSettings.nullable(),
  limits: z.array(probeLimit).default([]),
  lamp: lampSettings.nullable().default(null),
  nowMs: z.number(),
})

/** Asks the server every 2 s what to read; the last good answer is kept on disk for a start without a server. */
export class SettingsPoll {
  readonly #parts: SettingsPollParts
  readonly #startMs: number
  #etag: string | null = null
  #said = ''
  #isFirst = true
  #isClosed = false
  #cancel: Cancel | null = null

  constructor(parts: SettingsPollParts) {
    this.#parts = parts
    this.#startMs = parts.clock.nowMs()
    const kept = parts.outbox.notes.kept(KEPT_AS)
    const settings = kept === null ? null : this.#decode(kept)
    if (settings !== null) parts.onSettings({ ...settings, find: false })
  }

  /** One round; the next follows by itself. */
  async poll(): Promise<void> {
    const { way, bridge, isOwn, clock } = this.#parts
    const askedMs = clock.nowMs()
    const answer = await way.ask({
      method: 'GET',
      path: `/api/bridge/settings?bridge=${encodeURIComponent(bridge)}&own=${isOwn ? 1 : 0}`,
      ...(this.#etag === null ? {} : { headers: { 'if-none-match': this.#etag } }),
    })
    if (this.#isClosed) return
    this.#take(answer, (askedMs + clock.nowMs()) / 2)
    if (answer.ok && this.#isFirst) {
      this.#isFirst = false
      this.#parts.onContact()
    }
    this.#cancel = clock.after(EVERY_MS, () => void this.poll())
  }

  close(): void {
    this.#isClosed = true
    this.#cancel?.()
  }

  #take(answer: Answer, middleMs: number): void {
    if (!answer.ok) return this.#say(answer.sentence)
    if (answer.status === 304) return
    if (answer.status === 401 || answer.status === 403) {
      return this.#say(`the server does not accept this bridge; give it the bridge's key with --key`)
    }
    if (answer.status !== 200)
      return this.#say(`the server has no settings for this bridge (status ${answer.status})`)
    const settings = this.#decode(answer.body)
    if (settings === null) return
    this.#said = ''
    this.#etag = answer.headers.etag ?? null
    this.#parts.outbox.notes.keep(KEPT_AS, answer.body)
    if (this.#isFirst) this.#setClock(settings.nowMs - middleMs)
    this.#parts.onSettings(settings)
  }

  /** A board that starts in 1970 gives its readings the server's time; found once in a run, so order never changes. */
  #setClock(offMs: number): void {
    const { notes } = this.#parts.outbox
    if (Math.abs(offMs) >= CLOCK_OFF_MS) notes.setOffset(offMs)
    notes.placeOldRuns(this.#startMs)
    if (Math.abs(offMs) < CLOCK_OFF_MS) return
    this.#parts.onSay(
      `this computer's clock is ${Math.round(Math.abs(offMs) / 1000)} s off the server's; the server's is used`,
    )
  }

  #decode(text: string): BridgeSettings | null {
    const parsed = shape.safeParse(parseJson(text))
    if (!parsed.success) {
      this.#say('the server gave settings that this bridge can not read; are both of one version?')
      return null
    }
    const decoded = parsed.data.probes.map((p) => decodeProbe(p))
    for (const wrong of decoded) if (typeof wrong === 'string') this.#say(`a probe is left out: ${wrong}`)
    return { ...parsed.data, probes: decoded.filter((p): p is ProbeSettings => typeof p !== 'string') }
  }

  #say(sentence: string): void {
    if (sentence !== this.#said) this.#parts.onSay(sentence)
    this.#said = sentence
  }
}

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text) as unknown
  } catch {
    return null
  }
}
