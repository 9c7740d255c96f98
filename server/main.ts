import { createServer } from 'node:http'
import { join } from 'node:path'
import type { Logger } from 'pino'
import type { Clock } from '#core/measure/clock'
import type { WatchSettings } from '#core/watch/watch-settings'
import type { Settings } from '#core/wire/settings'
import { BridgeDesk } from './serve/bridge-desk.ts'
import { Access } from './serve/guard/access.ts'
import { isLoopbackHost, ownNames } from './serve/guard/stranger.ts'
import type { Health } from './serve/health.ts'
import { listen, ListenRefusal } from './serve/http/listen.ts'
import { makeApp } from './serve/http/make-app.ts'
import { BeliefBook } from './serve/intake/belief-book.ts'
import { Intake } from './serve/intake/intake.ts'
import { KnownProbes } from './serve/intake/known-probes.ts'
import { LiveSocket } from './serve/live/live-socket.ts'
import { Recorder } from './serve/recorder.ts'
import { personOf } from './serve/person-of.ts'
import { byProbe } from './serve/routes/probes.ts'
import { morningRoutes } from './serve/routes/morning.ts'
import { tellingRoutes } from './serve/routes/telling.ts'
import type { Studio } from './serve/studio.ts'
import { carry, openTelling, tellRound } from './serve/telling.ts'
import { coreWatch } from './serve/watch/core-watch.ts'
import { Outcomes } from './serve/watch/outcomes.ts'
import { PotsOnStove } from './serve/watch/pots-on-stove.ts'
import { pulse, stoveLive } from './serve/watch/stove-live.ts'
import { stoveWords } from './serve/watch/stove-words.ts'
import { Teller } from './serve/watch/teller.ts'
import { Watching } from './serve/watch/watching.ts'
import type { Message } from './store/messages.ts'
import type { Store } from './store/store.ts'
import type { Supervisor } from './tell/supervisor.ts'
import type { TellDesk } from './tell/tell-desk.ts'

export interface ServerOptions {
  readonly store: Store
  readonly clock: Clock
  readonly log: Logger
  readonly settings: () => Settings
  /** The key that the bridge beside the server shows. */
  readonly ownKey: string
  /** A bridge is started beside this server; `true` when left out. */
  readonly hasOwnBridge?: boolean
  /** Folder for what is kept besides the record: phones, keys, letters that were given up. Left out: in memory. */
  readonly data?: string
  /** Hears each time that the watch goes round. */
  readonly supervisor?: Supervisor
  /** Folder of the built page. */
  readonly web: string
  readonly version: string
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

/** Puts the server together and starts it. Throws `ListenRefusal` for an address that can't be had. */
export async function startServer(options: ServerOptions): Promise<RunningServer> {
  const { store, clock, log, settings } = options
  const { host, port, key, passphrase } = settings()
  refuseOpenDoor(settings())
  const onFailure = (error: unknown) => {
    failure = 'the watch met a fault of the program: alarms may be missing; see the log'
    log.error({ err: error }, 'the watch failed')
  }
  let failure: string | null = null
  let integrity: Health['integrity'] = 'checking'
  const own = () => ownNames(host, settings().hosts)
  const access = new Access({
    keys: [options.ownKey, ...(key === undefined ? [] : [key])],
    passphrase: passphrase ?? null,
  })

  const recorder = new Recorder(store, clock, (trouble) => {
    if (trouble === null) log.info('recording again')
    else log.error(trouble)
  })
  const beliefs = new BeliefBook()
  const probes = new KnownProbes()
  const stove = new PotsOnStove(store)
  const newWatch = () => coreWatch(watchSettings(settings()))
  const lagSOf = (probe: string) => bridges.probeSettings().find((p) => p.name === probe)?.lagS ?? null
  const outcomes = new Outcomes({ store, recorder, newWatch, lagSOf })
  const tell = (message: Message) => {
    live.message(message)
    carry(desk, message)
    log.info({ message: message.message }, message.message.text)
  }
  const teller = new Teller({
    store,
    recorder,
    clock,
    words: stoveWords(stove, () => personOf(settings())),
    batchOn: (potId) => stove.batchOn(potId),
    tell,
  })
  const watching = new Watching({
    store,
    clock,
    stove,
    teller,
    newWatch,
    lagSOf,
    outcomes,
    onFailure,
    onTick: (atMs) => {
      bridges.tick(atMs)
      live.pulse(pulse(studio))
      tellRound(desk, studio, options.supervisor ?? null)
    },
  })
  const onBridge = (bridge: string, up: boolean) => {
    log[up ? 'info' : 'warn'](up ? `the bridge "${bridge}" is here` : `the bridge "${bridge}" is lost`)
    void watching.note({ kind: 'bridge', atMs: clock.nowMs(), bridge, up })
  }
  const bridges: BridgeDesk = new BridgeDesk(clock, settings, onBridge, options.hasOwnBridge !== false)
  const intake = new Intake({
    store,
    clock,
    recorder,
    beliefs,
    probes,
    sink: {
      live: (reading) => {
        watching.live(reading)
        const isTemp = reading.kind === 'temp'
        const tempC = isTemp ? reading.tempC : null
        live.reading({
          probe: reading.probe,
          atMs: reading.atMs,
          tempC,
          verdict: isTemp ? reading.verdict : reading.fault,
        })
      },
      late: (reading) => watching.late(reading),
    },
  })
  const studio: Studio = {
    store,
    clock,
    recorder,
    beliefs,
    probes,
    intake,
    stove,
    watching,
    teller,
    bridges,
    access,
    settings,
    showStove: () => live.stove(stoveLive(studio)),
    listeners: () => live.listeners.count(),
    trouble: () => recorder.trouble ?? failure,
    backup: (file) => store.backup(file),
    version: options.version,
  }

  const http = createServer()
  const live: LiveSocket = new LiveSocket({
    http,
    clock,
    access,
    own,
    stove: () => stoveLive(studio),
    missed: (lastId, limit) => store.messages.after(lastId, limit),
    onLastId: (lastId) => teller.goOnFrom(lastId),
    acknowledge: (id, who) => answer(teller.act(id, { kind: 'acknowledge', atMs: clock.nowMs(), who })),
    shelve: (id, minutes) => answer(teller.act(id, { kind: 'shelve', atMs: clock.nowMs(), minutes })),
    onSeen: (id, sound) => desk.ways.telling.seen(id, sound),
    onHeardTest: async (testId, device) => answer(await desk.ways.testAlarm.heard(testId, device)),
    onFailure,
  })
  const desk: TellDesk = await openTelling({
    clock,
    random01: Math.random,
    data: options.data ?? null,
    platform: process.platform,
    settings: settings(),
    pages: {
      listeners: () => live.listeners.count(),
      call: (call) => live.call(call),
      test: (test) => live.test(test),
    },
    teller,
    onTrouble: (sentence) => log.warn(sentence),
  })
  const app = makeApp(studio, {
    own,
    log,
    integrity: () => integrity,
    pages: () => live.pages,
    web: options.web,
    more: [...tellingRoutes(studio, desk), ...morningRoutes(studio)],
  })
  http.on('request', app)

  await takeUp(studio)
  desk.resume()
  await watching.start()
  const gotPort = await listen(http, host, port)
  const look = async () => {
    const wrong = await store.check()
    integrity = wrong.length === 0 ? 'sound' : 'damaged'
    if (wrong.length > 0) log.error({ wrong }, 'the database is damaged; restore the newest backup')
  }
  const checking = look().catch(onFailure)

  return {
    url: `http://${host.includes(':') ? `[${host}]` : host}:${gotPort}`,
    port: gotPort,
    studio,
    settingsChanged: async () => {
      probes.add(bridges.probeSettings().map((p) => p.name))
      await desk.apply(settings())
      await watching.rebuild()
      studio.showStove()
    },
    close: async () => {
      http.close()
      await live.close()
      await watching.stop()
      await desk.close()
      await checking
      await recorder.close()
      http.closeAllConnections()
    },
  }
}

const answer = (refused: string | null) =>
  refused === null ? { ok: true as const } : { ok: false as const, why: refused }

/** What the record knows, before anything new comes in. */
async function takeUp({ store, probes, beliefs, bridges, intake, stove, teller }: Studio): Promise<void> {
  await bridges.load(store.probes)
  probes.add((await store.probes.list()).map((p) => p.name))
  probes.add(bridges.probeSettings().map((p) => p.name))
  beliefs.useCorrections(byProbe(await store.probes.corrections()))
  const newest = await store.readings.newest()
  intake.resume(newest)
  probes.heard(newest)
  await stove.refresh()
  await teller.resume()
}

/** What the plan file's schema lets through is what the watch takes. */
const watchSettings = ({ alarms }: Settings): WatchSettings =>
  alarms === undefined ? {} : ({ alarms } as WatchSettings)

/** A server that others can reach asks them who they are, or it does not start. */
function refuseOpenDoor({ host, key, passphrase }: Settings): void {
  if (isLoopbackHost(host) || key !== undefined || passphrase !== undefined) return
  throw new ListenRefusal(
    `host is "${host}", which other computers can reach, and neither "key" nor "passphrase" is set; ` +
      'allowed is 127.0.0.1, or another address with one of the two in the settings',
  )
}

/** Where the built page lies, seen from the built program. */
export const webFolder = (programFolder: string): string => join(programFolder, 'web')
