import { randomBytes } from 'node:crypto'
import { networkInterfaces } from 'node:os'
import type { Cancel, Clock } from '#core/measure/clock'
import type { BrokerSettings } from '#core/wire/bridge-link'
import { type BrokerOwner, type EmbeddedBroker, openEmbeddedBroker } from './embedded-broker.ts'

/** A broker that could not be started is tried again after this long, ms. */
const RETRY_MS = 10_000

/** The broker that this bridge runs, as the settings have it at the moment. */
export class OwnBroker {
  readonly #clock: Clock
  readonly #say: (sentence: string) => void
  readonly #owner: BrokerOwner = { user: 'bridge', password: randomBytes(24).toString('hex') }
  #settings: BrokerSettings | null = null
  #open: EmbeddedBroker | null = null
  #cancel: Cancel | null = null

  constructor(clock: Clock, say: (sentence: string) => void) {
    this.#clock = clock
    this.#say = say
  }

  /** Starts, ends or changes it; does nothing when nothing changed. */
  async apply(settings: BrokerSettings | null): Promise<void> {
    const wanted = settings !== null && settings.enabled ? settings : null
    if (JSON.stringify(wanted) === JSON.stringify(this.#settings)) return
    await this.close()
    this.#settings = wanted
    await this.#start()
  }

  /** How the bridge itself enters, when `url` is this broker; a stranger's broker never gets the password. */
  login(url: string): BrokerOwner | null {
    if (this.#open === null || this.#settings === null || !URL.canParse(url)) return null
    const { hostname, port, protocol } = new URL(url)
    if (protocol !== 'mqtt:' || Number(port || 1883) !== this.#open.port) return null
    const host = hostname.replace(/^\[|\]$/g, '')
    return host === this.#settings.host || isThisComputer(host) ? this.#owner : null
  }

  async close(): Promise<void> {
    this.#cancel?.()
    const open = this.#open
    this.#open = null
    await open?.close()
  }

  async #start(): Promise<void> {
    const settings = this.#settings
    if (settings === null) return
    try {
      this.#open = await openEmbeddedBroker(settings, this.#owner)
      this.#say(`the built-in broker listens on ${settings.host}:${this.#open.port}`)
    } catch (error) {
      this.#say(error instanceof Error ? error.message : String(error))
      this.#cancel = this.#clock.after(RETRY_MS, () => void this.#start())
    }
  }
}

function isThisComputer(host: string): boolean {
  const own = Object.values(networkInterfaces()).flatMap((all) => (all ?? []).map((i) => i.address))
  return ['localhost', '127.0.0.1', '::1', ...own].includes(host)
}
