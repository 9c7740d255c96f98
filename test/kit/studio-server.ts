import { join } from 'node:path'
import { pino } from 'pino'
import { io, type Socket } from 'socket.io-client'
import { onTestFinished } from 'vitest'
import type { PageToServer, ServerToPage } from '#core/wire/live'
import { decodeSettings } from '#core/wire/settings'
import { type RunningServer, startServer } from '../../server/main.ts'
import type { HeatWork } from '../../server/serve/heat/heat-work.ts'
import { Problem } from '../../server/serve/http/problem.ts'
import { openSqliteStore } from '../../server/store/sqlite/open-sqlite-store.ts'
import type { Store } from '../../server/store/store.ts'
import { HandClock } from './hand-clock.ts'
import { tempFolder } from './temp-folder.ts'

export interface Answered {
  readonly status: number
  readonly headers: Headers
  // What comes back is looked at by tests alone.
  // oxlint-disable-next-line typescript/no-explicit-any
  readonly body: any
}

/** A real server on 127.0.0.1 with a hand clock, and the few words that a test needs to talk to it. */
export interface StudioServer extends RunningServer {
  readonly clock: HandClock
  readonly store: Store
  readonly folder: string
  ask(method: string, path: string, body?: unknown, headers?: Record<string, string>): Promise<Answered>
  /** Readings of one probe at the clock's time, one a second; the clock moves along. Past HTTP, for speed. */
  feed(probe: string, ...tempsC: readonly number[]): Promise<void>
  page(auth?: Record<string, unknown>, headers?: Record<string, string>): Socket<ServerToPage, PageToServer>
  /** Lets the clock run, a second at a time, with what is due done between. */
  wait(seconds: number): Promise<void>
  stop(): Promise<void>
}

export interface StudioOptions {
  readonly settings?: Record<string, unknown>
  readonly clock?: HandClock
  readonly folder?: string
  readonly store?: (store: Store) => Store
  /** Phones, letters and what the watch knows are kept in the folder, too. */
  readonly keeps?: boolean
  readonly heatWork?: HeatWork
}

export async function studioServer(options: StudioOptions = {}): Promise<StudioServer> {
  const folder = options.folder ?? tempFolder()
  const clock = options.clock ?? new HandClock(Date.UTC(2026, 0, 10, 8))
  const opened = await openSqliteStore(join(folder, 'holdfast.db'))
  // Looking through the file starts a worker; the store's own tests do that.
  const unchecked: Store = { ...opened, check: async () => [] }
  const store = options.store?.(unchecked) ?? unchecked
  const decoded = decodeSettings([{ where: 'test', values: { port: 0, zone: 'UTC', ...options.settings } }])
  if (!decoded.ok) throw new Error(decoded.why)
  const server = await startServer({
    store,
    clock,
    log: pino({ level: 'silent' }),
    settings: () => decoded.settings,
    ownKey: 'the-key-of-the-bridge-beside',
    web: join(folder, 'web'),
    version: '0.0.0',
    ...(options.keeps === true ? { data: folder } : {}),
    ...(options.heatWork === undefined ? {} : { heatWork: options.heatWork }),
  })
  let isStopped = false
  const stop = async () => {
    if (isStopped) return
    isStopped = true
    await server.close()
    await store.close()
  }
  onTestFinished(stop)
  const ask = async (method: string, path: string, body?: unknown, headers: Record<string, string> = {}) => {
    const type = path === '/api/readings' && method === 'POST' ? 'application/senml+json' : 'application/json'
    const answer = await fetch(server.url + path, {
      method,
      headers: { ...(body === undefined ? {} : { 'content-type': type }), ...headers },
      ...(body === undefined ? {} : { body: typeof body === 'string' ? body : JSON.stringify(body) }),
    })
    const text = await answer.text()
    const isJson = (answer.headers.get('content-type') ?? '').includes('json')
    return { status: answer.status, headers: answer.headers, body: isJson ? JSON.parse(text) : text }
  }
  return {
    ...server,
    clock,
    store,
    folder,
    ask,
    stop,
    feed: async (probe, ...tempsC) => {
      for (const tempC of tempsC) {
        clock.advance(1000)
        const pack = [{ n: `urn:${probe}`, u: 'Cel', v: tempC }]
        await server.studio.intake.takeSenml(pack, true).catch(unlessFull)
      }
    },
    page: (auth = {}, headers = {}) => {
      const socket: Socket<ServerToPage, PageToServer> = io(server.url, {
        transports: ['websocket'],
        reconnection: false,
        auth,
        extraHeaders: headers,
      })
      onTestFinished(() => void socket.disconnect())
      return socket
    },
    wait: async (seconds) => {
      for (let s = 0; s < seconds; s += 1) {
        clock.advance(1000)
        await new Promise((resolve) => setImmediate(resolve))
      }
    },
  }
}

/** A full disk is an answer, not a fault of the test. */
function unlessFull(error: unknown): void {
  if (!(error instanceof Problem) || error.status !== 503) throw error
}

/** A pot with a probe and a running hold: window 80…86 °C, ceiling 90 °C, 60 min. */
export async function heronInMordant(server: StudioServer): Promise<number> {
  await server.ask('POST', '/api/readings', [{ n: 'urn:heron', u: 'Cel', v: 75 }])
  await server.ask('POST', '/api/pots', { title: 'Heron', probe: 'urn:heron' })
  const plan = await server.ask('POST', '/api/plans', MORDANT_PLAN)
  const batch = await server.ask('POST', '/api/batches', {
    title: 'Two skeins',
    planId: plan.body.id,
    dryWeightG: 400,
  })
  await server.ask('POST', `/api/batches/${batch.body.id}/stages/mordant/start`, { potId: 'heron' })
  return batch.body.id as number
}

export const MORDANT_PLAN = {
  title: 'Red on wool',
  fibre: 'wool',
  stages: [
    { id: 'mordant', title: 'Alum mordant', kind: 'hold', windowC: [80, 86], ceilingC: 90, holdMin: 60 },
    { id: 'rinse', title: 'Rinse', kind: 'rest', minutes: 10 },
  ],
}
