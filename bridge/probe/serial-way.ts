import type { Cancel } from '#core/measure/clock'
import type { UsbIdentity } from '#core/wire/probe-kinds/port'
import { waitMs } from './backoff.ts'
import { findPort } from './find-port.ts'
import type { OpenPort, PortOptions, SerialDoor } from './serial-door.ts'
import type { Sink, Source, World } from './source.ts'

/** Which port, and how it is set. */
export interface PortSettings {
  readonly path?: string | undefined
  readonly usb?: UsbIdentity | undefined
  readonly baud: number
  readonly dataBits?: 7 | 8 | undefined
  readonly parity?: 'none' | 'even' | 'odd' | undefined
  readonly stopBits?: 1 | 2 | undefined
}

/** What is done with a port while it is open. */
export interface PortUser {
  /** The port is open; called anew after each reopening. */
  opened(port: OpenPort): void
  data(bytes: Uint8Array): void
  /** It is gone; what was unfinished is void. */
  lost(): void
}

export interface SerialWayParts {
  readonly settings: PortSettings
  readonly user: PortUser
  readonly sink: Sink
  readonly world: World
  readonly open?: SerialDoor['open']
}

/** A port that was not there is looked for this often, ms; also how often an open one is looked after. */
const RESCAN_MS = 2000
const BACKOFF = { firstMs: 250, longestMs: RESCAN_MS }

/**
 * Keeps a serial port open: finds it by path or by what is plugged in, opens it, and does so again whenever it
 * goes. Some systems never tell that a port went, so every 2 s the path is compared with what was opened.
 */
export class SerialWay implements Source {
  readonly #settings: PortSettings
  readonly #user: PortUser
  readonly #sink: Sink
  readonly #world: World
  readonly #openPort: SerialDoor['open']
  #port: OpenPort | null = null
  #cancel: Cancel = () => {}
  #attempt = 0
  #isClosed = false
  #busy: Promise<void>

  /** `open`: another way to open the port than the computer's own door, for a library that wants it for itself. */
  constructor({ settings, user, sink, world, open }: SerialWayParts) {
    this.#settings = settings
    this.#user = user
    this.#sink = sink
    this.#world = world
    this.#openPort = open ?? world.serial.open
    this.#busy = this.#tryOpen()
  }

  async close(): Promise<void> {
    this.#isClosed = true
    this.#cancel()
    await this.#busy
    const port = this.#port
    this.#port = null
    await port?.close()
  }

  async #tryOpen(): Promise<void> {
    try {
      await this.#open()
    } catch (error) {
      this.#trouble(error instanceof Error ? error.message : String(error))
    }
  }

  async #open(): Promise<void> {
    const path = await this.#path()
    if (this.#isClosed) return
    const seen = await this.#world.serial.identity(path)
    const port = await this.#openPort(path, options(this.#settings), {
      data: (bytes) => this.#user.data(bytes),
      gone: (why) => this.#gone(why),
    })
    if (this.#isClosed) return port.close()
    this.#port = port
    this.#attempt = 0
    this.#sink.way('open', `${path} is open`)
    this.#user.opened(port)
    this.#lookAfter(path, seen)
  }

  async #path(): Promise<string> {
    if (this.#settings.path !== undefined) return this.#settings.path
    const found = findPort(await this.#world.serial.list(), this.#settings.usb!)
    if (!found.ok) throw new Error(found.sentence)
    return found.path
  }

  #lookAfter(path: string, seen: string | null): void {
    this.#cancel = this.#world.clock.after(RESCAN_MS, () => {
      this.#busy = this.#compare(path, seen)
    })
  }

  async #compare(path: string, seen: string | null): Promise<void> {
    const now = await this.#world.serial.identity(path)
    if (this.#isClosed || this.#port === null) return
    if (now === seen) return this.#lookAfter(path, seen)
    const port = this.#port
    this.#gone(`${path} went away; is the plug still in?`)
    await port.close()
  }

  #gone(why: string): void {
    if (this.#isClosed || this.#port === null) return
    this.#port = null
    this.#cancel()
    this.#user.lost()
    this.#trouble(why)
  }

  #trouble(sentence: string): void {
    if (this.#isClosed) return
    this.#sink.way('trouble', sentence)
    const delayMs = waitMs(BACKOFF, this.#attempt++, this.#world.random())
    this.#cancel = this.#world.clock.after(delayMs, () => {
      this.#busy = this.#tryOpen()
    })
  }
}

const options = (s: PortSettings): PortOptions => ({
  baud: s.baud,
  dataBits: s.dataBits ?? 8,
  parity: s.parity ?? 'none',
  stopBits: s.stopBits ?? 1,
})
