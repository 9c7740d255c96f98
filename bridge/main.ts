import { randomBytes } from 'node:crypto'
import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { hostname } from 'node:os'
import { isSettledWithin } from '#core/measure/settled-within'
import type { BridgeSettings, BridgeState } from '#core/wire/bridge-link'
import { HandOver } from './link/hand-over.ts'
import { LoneAlarm } from './link/lone-alarm.ts'
import { openLoneLamp } from './link/lone-lamp.ts'
import { Outbox } from './link/outbox.ts'
import { RealClock } from './link/real-clock.ts'
import { sendReadings } from './link/send-readings.ts'
import { ServerWay } from './link/server-way.ts'
import { SettingsPoll } from './link/settings-poll.ts'
import { TellState } from './link/tell-state.ts'
import { FindProbe } from './probe/find-probe.ts'
import { OwnBroker } from './probe/own-broker.ts'
import { realSerialDoor } from './probe/real-serial-door.ts'
import type { World } from './probe/source.ts'
import { Stand } from './probe/stand.ts'

export interface BridgeOptions {
  readonly server: URL
  /** Folder of the outbox. */
  readonly data: string
  /** Its name towards the server, as in `<bridge>/<probe>`. */
  readonly name: string
  readonly key: string | null
  /** Started by the server beside itself. */
  readonly isOwn: boolean
  readonly say: (sentence: string) => void
  /** A sound, where there is a terminal. */
  readonly bell: () => void
}

/** What the ends of all sources may take together, and the answer to the batch under way, ms: a server asks no more of its child. */
const LET_GO_MS = 2000
const LAST_ANSWER_MS = 1000

/** A bridge at work: probes → outbox → server. */
export class Bridge {
  readonly #options: BridgeOptions
  readonly #clock = new RealClock()
  readonly #boot = `${this.#clock.nowMs().toString(36)}-${randomBytes(4).toString('hex')}`
  readonly #broker: OwnBroker
  readonly #way: ServerWay
  readonly #outbox: Outbox
  readonly #world: World
  readonly #stand: Stand
  readonly #poll: SettingsPoll
  readonly #tellState: TellState
  readonly #loneAlarm: LoneAlarm
  #handOver: HandOver | null = null
  #find: FindProbe | null = null
  #trouble: string | null = null
  #applying: Promise<void> = Promise.resolve()

  /** Begins at once. Throws when the outbox can't be opened. */
  constructor(options: BridgeOptions) {
    this.#options = options
    const { say } = options
    this.#way = new ServerWay(options.server, options.key)
    this.#outbox = new Outbox({
      file: join(options.data, 'outbox.sqlite'),
      clock: this.#clock,
      boot: this.#boot,
      onReady: () => this.#handOver?.wake(),
      onTrouble: say,
    })
    this.#broker = new OwnBroker(this.#clock, say)
    this.#world = this.#makeWorld()
    this.#loneAlarm = new LoneAlarm({
      clock: this.#clock,
      say,
      bell: options.bell,
      openLamp: (lamp) => openLoneLamp(lamp, `holdfast-bridge-${options.name}`, this.#clock),
    })
    this.#tellState = new TellState(
      this.#way,
      this.#clock,
      () => this.#state(),
      () => this.#loneAlarm.heard(),
    )
    this.#stand = new Stand({
      world: this.#world,
      onSample: (sample) => {
        this.#outbox.put(sample)
        this.#loneAlarm.sample(sample)
      },
      onChange: () => this.#tellState.changed(),
      onSay: say,
    })
    this.#poll = new SettingsPoll({
      way: this.#way,
      outbox: this.#outbox,
      clock: this.#clock,
      bridge: options.name,
      isOwn: options.isOwn,
      onContact: () => this.#startHandOver(),
      onSettings: (settings) => this.#take(settings),
      onSay: say,
    })
    void this.#poll.poll()
  }

  /** Takes nothing more in, writes what it has, and ends, also when a port, a broker or the server hangs. */
  async stop(): Promise<void> {
    this.#poll.close()
    this.#tellState.close()
    this.#loneAlarm.close()
    await isSettledWithin(this.#clock, this.#closeSources(), LET_GO_MS)
    this.#outbox.commit()
    const handed = this.#handOver?.stop() ?? Promise.resolve()
    await isSettledWithin(this.#clock, handed, LAST_ANSWER_MS)
    // Whatever is still asked ends with its connection; the rows stay in the outbox.
    this.#way.close()
    await handed
    this.#outbox.close()
  }

  async #closeSources(): Promise<void> {
    await this.#applying
    await Promise.all([this.#stand.close(), this.#find?.close(), this.#broker.close()])
  }

  #makeWorld(): World {
    return {
      clock: this.#clock,
      random: Math.random,
      serial: realSerialDoor,
      machineId: machineId(),
      brokerLogin: (url) => this.#broker.login(url),
    }
  }

  /** Only after the first answer: by then the clock's offset to the server is known. */
  #startHandOver(): void {
    this.#handOver = new HandOver({
      outbox: this.#outbox,
      clock: this.#clock,
      random: Math.random,
      send: (rows) =>
        sendReadings(this.#way, this.#options.name, rows, (boot) => this.#outbox.notes.offsetOf(boot)),
      onTrouble: (sentence) => {
        if (sentence !== this.#trouble) this.#options.say(sentence ?? 'the server takes readings again')
        this.#trouble = sentence
      },
    })
    this.#handOver.wake()
  }

  #take(settings: BridgeSettings): void {
    this.#applying = this.#applying
      .then(() => this.#apply(settings))
      .catch((error: unknown) => this.#options.say(`the settings could not be put to use: ${String(error)}`))
  }

  async #apply(settings: BridgeSettings): Promise<void> {
    this.#loneAlarm.settings(settings)
    await this.#broker.apply(settings.broker)
    await this.#stand.apply(settings.probes)
    if (settings.find && this.#find === null)
      this.#find = new FindProbe(this.#world, () => this.#stand.settings)
    if (!settings.find && this.#find !== null) {
      const ending = this.#find
      this.#find = null
      await isSettledWithin(this.#clock, ending.close(), LET_GO_MS)
    }
  }

  #state(): BridgeState {
    return {
      bridge: this.#options.name,
      boot: this.#boot,
      atMs: this.#clock.nowMs(),
      probes: [...this.#stand.reports()],
      outbox: this.#outbox.counts(),
      candidates: this.#find === null ? null : [...this.#find.candidates()],
    }
  }
}

/** The same at every start of this computer, so that a broker knows its bridge again. */
function machineId(): string {
  const file = '/etc/machine-id'
  return existsSync(file) ? readFileSync(file, 'utf8').trim() : hostname()
}
