import type { Server as HttpServer } from 'node:http'
import { Server, type Socket } from 'socket.io'
import { z } from 'zod'
import type { Clock } from '#core/measure/clock'
import type {
  Answer,
  CallMessage,
  PageToServer,
  Pulse,
  ReadingMessage,
  ServerToPage,
  StoveLive,
  TestMessage,
} from '#core/wire/live'
import { visibleLine } from '#core/wire/visible-line'
import type { Message } from '../../store/messages.ts'
import type { Access } from '../guard/access.ts'
import { type OwnNames, refuseStranger } from '../guard/stranger.ts'
import { TryLimit } from '../guard/try-limit.ts'
import { isBehind } from './is-behind.ts'
import { Listeners } from './listeners.ts'

/** A page that asks more often than this in a second is no page. */
const MOST_ASKS = 50

/** Messages that a page which was away gets at once, the newest ones; older ones stand in the record. */
const MOST_MISSED = 1000

export interface LiveParts {
  readonly http: HttpServer
  readonly clock: Clock
  readonly access: Access
  readonly own: () => OwnNames
  readonly stove: () => StoveLive
  /** Stored messages with a number over this one. */
  readonly missed: (lastId: number, limit: number) => Promise<readonly Message[]>
  readonly onLastId: (lastId: number) => void
  readonly acknowledge: (id: number, who: string | null) => Answer
  readonly shelve: (id: number, minutes: number) => Answer
  readonly onSeen: (id: number, sound: boolean) => void
  /** A person at a device has heard the test alarm. */
  readonly onHeardTest: (testId: number, device: string) => Promise<Answer>
  readonly onFailure: (error: unknown) => void
}

type Live = Server<PageToServer, ServerToPage>
type Page = Socket<PageToServer, ServerToPage>

const auth = z.object({
  lastId: z.number().int().nonnegative().nullish(),
  /** Only these pots; all when left out. */
  pots: z.array(z.string().max(64)).max(200).optional(),
  key: z.string().max(512).optional(),
})
const acknowledgeAsk = z.object({ id: z.number().int(), who: visibleLine(80).or(z.literal('')).optional() })
const shelveAsk = z.object({ id: z.number().int(), minutes: z.number() })
const heardTestAsk = z.object({ testId: z.number().int(), device: visibleLine(120) })
const seenAsk = z.object({ id: z.number().int().nonnegative(), sound: z.boolean() })

/** The websocket side: rooms for pots, what was missed, and answers to what pages ask. */
export class LiveSocket {
  readonly #parts: LiveParts
  readonly #io: Live
  readonly listeners: Listeners

  constructor(parts: LiveParts) {
    this.#parts = parts
    this.listeners = new Listeners()
    this.#io = new Server(parts.http, {
      transports: ['websocket'],
      serveClient: false,
      pingInterval: 5000,
      pingTimeout: 5000,
      maxHttpBufferSize: 16_384,
      allowRequest: (request, decide) => {
        const caller = { method: 'GET', path: '/socket.io', headers: request.headers }
        const refusal = refuseStranger(caller, parts.own(), true)
        decide(refusal === null ? null : refusal.why, refusal === null)
      },
    })
    this.#io.use((page, next) => {
      const shown = auth.safeParse(page.handshake.auth)
      const key = shown.success ? shown.data.key : undefined
      if (!shown.success) return next(new Error('auth may hold lastId, pots and key'))
      const entry = parts.access.entryOf(page.request, parts.clock.nowMs(), key)
      return next(entry === null ? new Error('log in first, or show a key in auth.key') : undefined)
    })
    this.#io.on('connection', (page) => void this.#welcome(page).catch(parts.onFailure))
  }

  stove(stove: StoveLive): void {
    this.#io.emit('stove', stove)
  }

  /** Each second. A page that does not keep up misses some of these, and is sent away when it falls far behind. */
  pulse(pulse: Pulse): void {
    this.#io.volatile.emit('pulse', pulse)
    for (const page of this.#io.sockets.sockets.values()) if (isBehind(page)) page.disconnect(true)
  }

  reading(reading: ReadingMessage): void {
    this.#io.volatile.emit('reading', reading)
  }

  /** To everybody who watches this pot. */
  message({ kind, message }: Message): void {
    const watchers = this.#io.to([ALL_POTS, roomOf(message.pot)])
    if (kind === 'alarm') watchers.emit('alarm', message)
    else watchers.emit('notice', message)
  }

  /** Nobody has answered yet. Never dropped: a page that is busy just then must still become loud. */
  call(call: CallMessage): void {
    this.#io.emit('call', call)
  }

  test(test: TestMessage): void {
    this.#io.emit('test', test)
  }

  get pages(): number {
    return this.#io.sockets.sockets.size
  }

  /** Lets every page go, to look for the server again by itself. What holds a socket on is the http server's to end. */
  close(): void {
    this.#io.engine.close()
  }

  /** First what it missed, then the whole picture, then whatever happens. */
  async #welcome(page: Page): Promise<void> {
    const { lastId, pots } = auth.parse(page.handshake.auth)
    this.#answerAsks(page)
    page.on('disconnect', () => this.listeners.gone(page.id))
    if (typeof lastId === 'number') {
      this.#parts.onLastId(lastId)
      const missed = await this.#parts.missed(lastId, MOST_MISSED + 1)
      if (missed.length > MOST_MISSED) page.emit('leftOut')
      for (const { kind, message } of missed.slice(-MOST_MISSED)) {
        if (pots !== undefined && !pots.includes(message.pot)) continue
        if (kind === 'alarm') page.emit('alarm', message)
        else page.emit('notice', message)
      }
    }
    page.emit('stove', this.#parts.stove())
    await page.join(pots === undefined ? ALL_POTS : pots.map(roomOf))
  }

  #answerAsks(page: Page): void {
    const { acknowledge, shelve, onSeen, onHeardTest } = this.#parts
    const limit = new TryLimit(MOST_ASKS, 1000)
    page.use((_ask, next) => {
      if (limit.take(page.id, this.#parts.clock.nowMs())) next()
      else page.disconnect(true)
    })
    page.on('acknowledge', (ask, answer) =>
      reply(acknowledgeAsk, ask, answer, ({ id, who }) => acknowledge(id, who || null)),
    )
    page.on('shelve', (ask, answer) =>
      reply(shelveAsk, ask, answer, ({ id, minutes }) => shelve(id, minutes)),
    )
    page.on('seen', (ask, answer) =>
      reply(seenAsk, ask, answer, ({ id, sound }) => {
        this.listeners.seen(page.id, sound)
        onSeen(id, sound)
        return { ok: true }
      }),
    )
    page.on('heardTest', (ask, answer) =>
      reply(heardTestAsk, ask, answer, ({ testId, device }) => onHeardTest(testId, device)),
    )
  }
}

/** The room of those who did not say which pots. */
const ALL_POTS = 'pots'

const roomOf = (pot: string): string => `pot:${pot}`

/** Nothing that a page sends may harm the server: a wrong ask is refused, a missing answer function is no fault. */
function reply<T>(
  schema: z.ZodType<T>,
  ask: unknown,
  answer: unknown,
  act: (ask: T) => Answer | Promise<Answer>,
): void {
  const parsed = schema.safeParse(ask)
  const said = parsed.success ? act(parsed.data) : NOT_UNDERSTOOD
  void Promise.resolve(said).then(
    (answered) => typeof answer === 'function' && answer(answered),
    (error: unknown) => typeof answer === 'function' && answer({ ok: false, why: String(error) }),
  )
}

const NOT_UNDERSTOOD: Answer = { ok: false, why: 'this ask was not understood' }
