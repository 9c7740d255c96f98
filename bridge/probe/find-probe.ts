import { readdir, readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { connect, type MqttClient } from 'mqtt'
import type { Cancel } from '#core/measure/clock'
import { readNumber } from '#core/measure/read-number'
import { scratchpadC } from '#core/measure/scratchpad'
import { splitLines, startSplit } from '#core/measure/split-lines'
import type { Candidate } from '#core/wire/bridge-link'
import type { ProbeSettings } from '#core/wire/probe-settings'
import type { OpenPort, PortInfo } from './serial-door.ts'
import type { World } from './source.ts'

/** Ports and folders are looked through this often, ms. */
const RESCAN_MS = 2000
/** Common rates of probes on a serial line, tried in turn while only noise comes. */
const BAUDS = [9600, 115_200, 19_200, 38_400, 57_600, 4800, 2400]
const MAX_TOPICS = 500
const MAX_TEXT = 120

/**
 * Lists every port, topic and one-wire device with what it says, so that a person can warm a probe in the hand and
 * see which one it is. Runs only while asked for: opening a port restarts some boards.
 */
export class FindProbe {
  readonly #world: World
  readonly #used: () => readonly ProbeSettings[]
  readonly #found = new Map<string, Candidate>()
  readonly #ports = new Map<string, Listening>()
  readonly #brokers = new Map<string, MqttClient>()
  #cancel: Cancel | null = null
  #isOn = true
  #round: Promise<void>

  constructor(world: World, used: () => readonly ProbeSettings[]) {
    this.#world = world
    this.#used = used
    this.#round = this.#look()
  }

  candidates(): readonly Candidate[] {
    return [...this.#found.values()]
  }

  async close(): Promise<void> {
    this.#isOn = false
    this.#cancel?.()
    await this.#round
    await Promise.all([...this.#ports.values()].flatMap((p) => (p.port === null ? [] : [p.port.close()])))
    await Promise.all([...this.#brokers.values()].map((client) => client.endAsync(true)))
  }

  async #look(): Promise<void> {
    await this.#lookAtPorts().catch(() => {})
    await this.#lookAtDevices()
    this.#lookAtBrokers()
    if (!this.#isOn) return
    this.#cancel = this.#world.clock.after(RESCAN_MS, () => {
      this.#round = this.#look()
    })
  }

  async #lookAtPorts(): Promise<void> {
    const ports = await this.#world.serial.list()
    for (const gone of [...this.#ports.keys()].filter((path) => !ports.some((p) => p.path === path))) {
      await this.#ports.get(gone)?.port?.close()
      this.#ports.delete(gone)
      this.#found.delete(`serial ${gone}`)
    }
    for (const info of ports) await this.#lookAtPort(info)
  }

  async #lookAtPort(info: PortInfo): Promise<void> {
    const usedBy =
      this.#used().find((p) => 'baud' in p && (p.path === info.path || isUsb(p, info)))?.name ?? null
    const listening = this.#ports.get(info.path)
    this.#note(info, { usedBy })
    if (usedBy !== null || !this.#isOn) return
    if (listening !== undefined && !listening.isNoise) return
    await listening?.port?.close()
    const next: Listening = { port: null, isNoise: false, attempt: (listening?.attempt ?? -1) + 1 }
    this.#ports.set(info.path, next)
    let split = startSplit(false)
    const baud = BAUDS[next.attempt % BAUDS.length]!
    try {
      next.port = await this.#world.serial.open(
        info.path,
        { baud, dataBits: 8, parity: 'none', stopBits: 1 },
        {
          data: (bytes) => {
            const step = splitLines(split, bytes)
            split = step.state
            next.isNoise = bytes.some((b) => b > 126 || (b < 32 && b !== 9 && b !== 10 && b !== 13))
            const line = step.lines.at(-1)
            if (line !== undefined && !next.isNoise)
              this.#note(info, said(line, this.#world.clock.nowMs(), `${baud} baud`))
          },
          gone: () => this.#ports.delete(info.path),
        },
      )
    } catch (error) {
      this.#ports.delete(info.path)
      this.#note(info, { trouble: error instanceof Error ? error.message.slice(0, 500) : String(error) })
    }
  }

  #note(info: PortInfo, change: Partial<Candidate> & { readonly spoken?: string }): void {
    const { spoken, ...rest } = change
    const key = `serial ${info.path}`
    const about = [info.maker, info.serialNumber, spoken]
      .filter((x) => x !== null && x !== undefined)
      .join(', ')
    const before = this.#found.get(key) ?? blank('serial', info.path, about)
    this.#found.set(key, {
      ...before,
      ...(spoken === undefined ? {} : { about, trouble: null }),
      usb:
        info.vendorId === null
          ? null
          : {
              vendorId: info.vendorId,
              ...(info.productId === null ? {} : { productId: info.productId }),
              ...(info.serialNumber === null ? {} : { serialNumber: info.serialNumber }),
            },
      ...rest,
    })
  }

  async #lookAtDevices(): Promise<void> {
    const folder = '/sys/bus/w1/devices'
    const names = await readdir(folder).catch(() => [])
    for (const name of names.filter((n) => /^[0-9a-f]{2}-[0-9a-f]{12}$/.test(n))) {
      const text = await readFile(join(folder, name, 'w1_slave'), 'latin1').catch(() => '')
      const value = scratchpadC(
        text
          .slice(0, 26)
          .trim()
          .split(' ')
          .map((b) => Number.parseInt(b, 16)),
      )
      this.#found.set(`one-wire ${name}`, {
        ...blank('one-wire', name, folder),
        ...(value.ok
          ? said(value.tempC.toFixed(2), this.#world.clock.nowMs())
          : { trouble: value.found.slice(0, 100) }),
      })
    }
  }

  /** Topics of every broker that the settings already know: a broker is not searched for in the network. */
  #lookAtBrokers(): void {
    for (const settings of this.#used()) {
      if (settings.kind !== 'mqtt' || this.#brokers.has(settings.url) || !this.#isOn) continue
      const login =
        settings.user === undefined
          ? this.#world.brokerLogin(settings.url)
          : { user: settings.user, password: settings.password ?? '' }
      const client = connect(settings.url, {
        ...(login === null ? {} : { username: login.user, password: login.password }),
        reconnectPeriod: 5000,
      })
      this.#brokers.set(settings.url, client)
      client.on('error', () => {})
      client.on('connect', () => client.subscribe('#'))
      client.on('message', (topic, payload, packet) => {
        if (!packet.retain) this.#heard(settings.url, topic, payload)
      })
    }
  }

  #heard(url: string, topic: string, payload: Uint8Array): void {
    const key = `mqtt ${url} ${topic}`
    if (!this.#found.has(key) && this.#found.size >= MAX_TOPICS) return
    const text = new TextDecoder().decode(payload.subarray(0, 4 * MAX_TEXT))
    const usedBy =
      this.#used().find((p) => p.kind === 'mqtt' && p.url === url && p.topic === topic)?.name ?? null
    this.#found.set(key, {
      ...blank('mqtt', topic.slice(0, 500), url.replace(/\/\/[^@/]*@/, '//')),
      usedBy,
      ...said(text, this.#world.clock.nowMs()),
    })
  }
}

interface Listening {
  port: OpenPort | null
  isNoise: boolean
  readonly attempt: number
}

const isUsb = (p: ProbeSettings, info: PortInfo): boolean =>
  'usb' in p &&
  p.usb !== undefined &&
  p.usb.vendorId.toLowerCase() === info.vendorId &&
  (p.usb.productId === undefined || p.usb.productId.toLowerCase() === info.productId) &&
  (p.usb.serialNumber === undefined || p.usb.serialNumber === info.serialNumber)

const blank = (kind: Candidate['kind'], where: string, about: string): Candidate => ({
  kind,
  where,
  about,
  usb: null,
  lastText: null,
  lastNumber: null,
  lastAtMs: null,
  usedBy: null,
  trouble: null,
})

/** What a candidate said, with the first number in it. */
function said(
  text: string,
  atMs: number,
  spoken?: string,
): Partial<Candidate> & { readonly spoken?: string } {
  const number = /[+-]?\d+(?:[.,]\d+)?(?:[eE][+-]?\d{1,3})?/.exec(text.slice(0, MAX_TEXT))?.[0]
  return {
    lastText: text.slice(0, MAX_TEXT),
    lastNumber: number === undefined ? null : readNumber(number),
    lastAtMs: atMs,
    ...(spoken === undefined ? {} : { spoken }),
  }
}
