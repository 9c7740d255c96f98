import { createServer, type Server } from 'node:http'
import { join } from 'node:path'
import type { Reading } from '#core/measure/reading'
import { refuseOpenDoor } from './serve/guard/open-door.ts'
import { ownNames } from './serve/guard/stranger.ts'
import { listen } from './serve/http/listen.ts'
import { makeApp } from './serve/http/make-app.ts'
import { OpenSockets } from './serve/http/open-sockets.ts'
import { LiveSocket } from './serve/live/live-socket.ts'
import { openStudio, type StudioParts, takeUp } from './serve/open-studio.ts'
import { RecordLook } from './serve/record-look.ts'
import { morningRoutes } from './serve/routes/morning.ts'
import { wakeRoutes } from './serve/routes/wake.ts'
import { tellingRoutes } from './serve/routes/telling.ts'
import type { Studio } from './serve/studio.ts'
import { carry, openTelling, tellRound } from './serve/telling.ts'
import { personOf } from './serve/person-of.ts'
import { keptCheckpoint } from './serve/watch/checkpoint.ts'
import { pulse, stoveLive } from './serve/watch/stove-live.ts'
import { namesOn } from './serve/watch/stove-words.ts'
import type { Supervisor } from './tell/supervisor.ts'
import type { TellDesk } from './tell/tell-desk.ts'

/** How often sockets are looked through for requests that take too long, ms. */
const CHECK_MS = 5000

export interface ServerOptions extends StudioParts {
  /** Folder for what is kept besides the record: phones, keys, letters that were given up. Left out: in memory. */
  readonly data?: string
  /** Hears each time that the watch goes round. */
  readonly supervisor?: Supervisor
  /** Folder of the built page. */
  readonly web: string
}

export interface RunningServer {
  readonly url: string
  readonly port: number
  readonly studio: Studio
  /** The settings file was read again. */
  settingsChanged(): Promise<void>
  /** Takes nothing more in, writes what it has, and ends. */
  close(): Promise<void>
}

/** Everything that makes a server, before it takes anything in. */
interface House {
  readonly http: Server
  readonly studio: Studio
  readonly live: LiveSocket
  readonly sockets: OpenSockets
  readonly desk: TellDesk
  readonly look: RecordLook
  readonly onFailure: (error: unknown) => void
}

/** Puts the server together and starts it. Throws `ListenRefusal` for an address that can't be had. */
export async function startServer(options: ServerOptions): Promise<RunningServer> {
  const { store, log, settings } = options
  const { host, port } = settings()
  refuseOpenDoor(settings())
  const house = await putTogether(options)
  const { http, studio, desk, look, onFailure } = house
  await takeUpDay(house)
  const gotPort = await listen(http, host, port).catch(async (error: unknown) => {
    await end(house)
    throw error
  })
  look.begin(store, log, onFailure)
  return {
    url: `http://${host.includes(':') ? `[${host}]` : host}:${gotPort}`,
    port: gotPort,
    studio,
    settingsChanged: async () => {
      studio.probes.add(studio.bridges.probeSettings().map((p) => p.name))
      await desk.apply(settings())
      await studio.watching.rebuild()
      studio.showStove()
    },
    close: async () => {
      await look.end()
      await end(house)
    },
  }
}

async function putTogether(options: ServerOptions): Promise<House> {
  const { log, settings } = options
  const own = () => ownNames(settings().host, settings().hosts)
  const http = createServer({ connectionsCheckingInterval: CHECK_MS })
  const sockets = new OpenSockets(http)
  const { onFailure, ...studio } = openStudio(keepingWatch(options), {
    message: (message) => {
      live.message(message)
      carry(desk, message)
      log.info({ message: message.message }, message.message.text)
    },
    reading: (reading) => live.reading(messageOf(reading)),
    tick: () => {
      live.pulse(pulse(studio))
      tellRound(desk, studio, options.supervisor ?? null)
    },
    stove: () => live.stove(stoveLive(studio)),
    listeners: () => live.listeners.count(),
  })
  const live: LiveSocket = openLive(http, studio, () => desk, own, onFailure)
  const desk: TellDesk = await openDesk(options, studio, live)
  const look = new RecordLook()
  const app = makeApp(studio, {
    own,
    log,
    integrity: () => look.found,
    pages: () => live.pages,
    web: options.web,
    more: [...tellingRoutes(studio, desk), ...morningRoutes(studio), ...wakeRoutes(studio)],
  })
  // The websocket comes as an upgrade alone: plain requests are the app's, guarded as all others, and its alone.
  http.removeAllListeners('request').on('request', app)
  return { http, studio, live, sockets, desk, look, onFailure }
}

/** From the record to this moment; then the watch goes round. */
async function takeUpDay({ studio, desk }: House): Promise<void> {
  await takeUp(studio)
  desk.resume()
  await studio.watching.start()
  desk.takeUpLetters()
  for (const { pot } of studio.stove.all) studio.burners.learnSoon(pot.id)
}

async function end({ live, sockets, studio, desk }: House): Promise<void> {
  live.close()
  await sockets.end()
  await studio.watching.stop()
  await studio.burners.close()
  await studio.evenings.settled()
  await desk.close()
  await studio.recorder.close()
}

/** What the watch knows lies beside the record. */
const keepingWatch = (options: ServerOptions): StudioParts =>
  options.data === undefined
    ? options
    : { ...options, watchKept: keptCheckpoint(join(options.data, 'watch-checkpoint.json')) }

function openLive(
  http: Server,
  { clock, access, store, teller, ...studio }: Studio,
  desk: () => TellDesk,
  own: () => ReturnType<typeof ownNames>,
  onFailure: (error: unknown) => void,
): LiveSocket {
  const nowMs = () => clock.nowMs()
  return new LiveSocket({
    http,
    clock,
    access,
    own,
    stove: () => stoveLive({ clock, teller, ...studio }),
    missed: (lastId, limit) => store.messages.after(lastId, limit),
    onLastId: (lastId) => teller.goOnFrom(lastId),
    acknowledge: (id, who) => answer(teller.act(id, { kind: 'acknowledge', atMs: nowMs(), who })),
    shelve: (id, minutes) => answer(teller.act(id, { kind: 'shelve', atMs: nowMs(), minutes })),
    onSeen: (id, sound) => desk().ways.telling.seen(id, sound),
    onHeardTest: async (testId, device) => answer(await desk().ways.testAlarm.heard(testId, device)),
    onFailure,
  })
}

const openDesk = (options: ServerOptions, studio: Studio, live: LiveSocket): Promise<TellDesk> =>
  openTelling({
    clock: options.clock,
    random01: Math.random,
    data: options.data ?? null,
    platform: process.platform,
    settings: options.settings(),
    pages: {
      listeners: () => live.listeners.count(),
      call: (call) => live.call(call),
      test: (test) => live.test(test),
    },
    teller: studio.teller,
    messages: studio.store.messages,
    person: () => personOf(options.settings()),
    names: () => namesOn(studio.stove),
    onTrouble: (sentence) => options.log.warn(sentence),
  })

const messageOf = (reading: Reading) => ({
  probe: reading.probe,
  atMs: reading.atMs,
  tempC: reading.kind === 'temp' ? reading.tempC : null,
  rawC: reading.kind === 'temp' ? reading.rawC : null,
  verdict: reading.kind === 'temp' ? reading.verdict : reading.fault,
})

const answer = (refused: string | null) =>
  refused === null ? { ok: true as const } : { ok: false as const, why: refused }

/** Where the built page lies, seen from the built program. */
export const webFolder = (programFolder: string): string => join(programFolder, 'web')
