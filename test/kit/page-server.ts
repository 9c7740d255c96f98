import { createServer } from 'node:http'
import type { AddressInfo } from 'node:net'
import { join } from 'node:path'
import express from 'express'
import { Server } from 'socket.io'
import type {
  AlarmMessage,
  NoticeMessage,
  PageToServer,
  ReadingMessage,
  ServerToPage,
  StoveLive,
} from '#core/wire/live'
import { pageRoutes } from './page-routes.ts'
import { madeUpPot, madeUpTempC } from './page-stove.ts'

/** A server with made-up pots, so that a test of the page decides what the page is told. */
export interface PageServer {
  readonly url: string
  /** What pages asked for over the socket, newest last. */
  readonly asks: readonly string[]
  /** The last id that each page said it had when it connected. */
  readonly lastIds: readonly (number | null)[]
  alarm(alarm: AlarmMessage): void
  notice(notice: NoticeMessage): void
  reading(reading: ReadingMessage): void
  /** Stops or goes on with the pulse, without closing the line: a stuck server. */
  pulse(on: boolean): void
  close(): Promise<void>
}

/** What the real server lets the page load. */
const POLICY =
  "default-src 'self'; img-src 'self' data: blob:; object-src 'none'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'"

export async function startPageServer(
  potCount: number,
  root = join(import.meta.dirname, '../..'),
): Promise<PageServer> {
  const app = express()
  app.use((_request, response, next) => {
    response.set('Content-Security-Policy', POLICY)
    next()
  })
  app.use('/api', pageRoutes(potCount))
  app.use(express.static(join(root, 'dist/web')))
  const http = createServer(app)
  const io = new Server<PageToServer, ServerToPage>(http, { transports: ['websocket'] })
  const asks: string[] = []
  const lastIds: (number | null)[] = []
  const alarms = new Map<number, AlarmMessage>()
  const pots = () => Array.from({ length: potCount }, (_, no) => madeUpPot(no, Date.now()))
  let lastId = 0
  let pulsing = true

  const stove = (): StoveLive => ({
    atMs: Date.now(),
    pots: pots(),
    alarms: [...alarms.values()],
    lastId,
    listeners: io.of('/').sockets.size,
    trouble: null,
  })

  function send(alarm: AlarmMessage): void {
    lastId = Math.max(lastId, alarm.id)
    alarms.set(alarm.alarmId, alarm)
    io.emit('alarm', alarm)
  }

  io.on('connection', (socket) => {
    const said: unknown = socket.handshake.auth['lastId']
    lastIds.push(typeof said === 'number' ? said : null)
    socket.emit('stove', stove())
    socket.on('acknowledge', ({ id, who }, answer) => {
      asks.push(`acknowledge ${id} ${who ?? ''}`.trim())
      const known = alarms.get(id)
      answer(known === undefined ? { ok: false, why: `there is no alarm ${id}` } : { ok: true })
      const at = new Date().toISOString()
      if (known !== undefined)
        send({
          ...known,
          id: lastId + 1,
          change: 'acknowledged',
          state: 'acknowledged',
          acknowledgedAt: at,
          acknowledgedBy: who ?? null,
        })
    })
    socket.on('shelve', ({ id }, answer) => {
      asks.push(`shelve ${id}`)
      answer({ ok: true })
    })
    socket.on('seen', ({ id, sound }, answer) => {
      asks.push(`seen ${id} ${sound ? 'sound' : 'no sound'}`)
      answer({ ok: true })
    })
  })

  const ticking = setInterval(() => {
    if (!pulsing) return
    const atMs = Date.now()
    io.emit('pulse', { atMs, pots: pots(), listeners: io.of('/').sockets.size, trouble: null })
    for (let no = 0; no < potCount; no += 1)
      if (no % 6 !== 5)
        io.emit('reading', {
          probe: `probe-${no}`,
          atMs,
          tempC: madeUpTempC(no, 0),
          rawC: madeUpTempC(no, 0),
          verdict: 'good',
        })
  }, 1000)

  await new Promise<void>((done) => http.listen(0, '127.0.0.1', done))
  return {
    url: `http://127.0.0.1:${(http.address() as AddressInfo).port}`,
    asks,
    lastIds,
    alarm: send,
    notice(notice) {
      lastId = Math.max(lastId, notice.id)
      io.emit('notice', notice)
    },
    reading: (reading) => void io.emit('reading', reading),
    pulse: (on) => void (pulsing = on),
    async close() {
      clearInterval(ticking)
      const closed = io.close()
      // A browser opens lines ahead of need; one on which nothing was asked would hold the end up for a minute.
      http.closeAllConnections()
      await closed
    },
  }
}
