import { splitLines, startSplit } from '#core/measure/split-lines'
import type { Candidate } from '#core/wire/bridge-link'
import type { ProbeSettings } from '#core/wire/probe-settings'
import { said, silentCandidate } from './candidate.ts'
import { isMatch } from './find-port.ts'
import type { OpenPort, PortInfo } from './serial-door.ts'
import type { World } from './source.ts'

/** Common rates of probes on a serial line, tried in turn while only noise comes. */
const BAUDS = [9600, 115_200, 19_200, 38_400, 57_600, 4800, 2400]

interface Listening {
  port: OpenPort | null
  isNoise: boolean
  readonly attempt: number
}

/** Serial ports with what they say. Ports that a probe uses are named and left alone. */
export class FindPorts {
  readonly #world: World
  readonly #used: () => readonly ProbeSettings[]
  readonly #found = new Map<string, Candidate>()
  readonly #listening = new Map<string, Listening>()
  /** Names of ports that have no chip behind them: boards list dozens. */
  readonly #hollow = new Set<string>()

  constructor(world: World, used: () => readonly ProbeSettings[]) {
    this.#world = world
    this.#used = used
  }

  candidates(): readonly Candidate[] {
    return [...this.#found.values()]
  }

  /** One look at what is plugged in now. */
  async look(): Promise<void> {
    const ports = await this.#world.serial.list()
    for (const path of [...this.#found.keys()].filter((known) => !ports.some((p) => p.path === known))) {
      await this.#leave(path)
      this.#found.delete(path)
    }
    for (const info of ports) if (!this.#hollow.has(info.path)) await this.#lookAt(info)
  }

  async close(): Promise<void> {
    await Promise.all([...this.#listening.keys()].map((path) => this.#leave(path)))
  }

  async #lookAt(info: PortInfo): Promise<void> {
    const usedBy = this.#used().find((p) => isOf(p, info))?.name ?? null
    this.#note(info, { usedBy })
    if (usedBy !== null) return this.#leave(info.path)
    const listening = this.#listening.get(info.path)
    if (listening !== undefined && !listening.isNoise) return
    await this.#leave(info.path)
    await this.#listen(info, (listening?.attempt ?? -1) + 1)
  }

  async #listen(info: PortInfo, attempt: number): Promise<void> {
    const next: Listening = { port: null, isNoise: false, attempt }
    this.#listening.set(info.path, next)
    const baud = BAUDS[attempt % BAUDS.length]!
    let split = startSplit(false)
    const data = (bytes: Uint8Array) => {
      const step = splitLines(split, bytes)
      split = step.state
      next.isNoise = bytes.some((b) => b > 126 || (b < 32 && ![9, 10, 13].includes(b)))
      const line = step.lines.at(-1)
      if (line === undefined || next.isNoise) return
      this.#note(info, {
        ...said(line, this.#world.clock.nowMs()),
        about: aboutOf(info, baud),
        trouble: null,
      })
    }
    const options = { baud, dataBits: 8, parity: 'none', stopBits: 1 } as const
    try {
      const gone = () => void this.#listening.delete(info.path)
      next.port = await this.#world.serial.open(info.path, options, { data, gone })
    } catch (error) {
      this.#listening.delete(info.path)
      this.#refused(info, error instanceof Error ? error.message : String(error))
    }
  }

  #refused(info: PortInfo, why: string): void {
    if (!/input\/output error/i.test(why)) return this.#note(info, { trouble: why.slice(0, 500) })
    this.#hollow.add(info.path)
    this.#found.delete(info.path)
  }

  async #leave(path: string): Promise<void> {
    const listening = this.#listening.get(path)
    this.#listening.delete(path)
    await listening?.port?.close()
  }

  #note(info: PortInfo, change: Partial<Candidate>): void {
    const before = this.#found.get(info.path) ?? silentCandidate('serial', info.path, aboutOf(info))
    this.#found.set(info.path, { ...before, usb: usbOf(info), ...change })
  }
}

const aboutOf = (info: PortInfo, baud?: number): string =>
  [info.maker, info.serialNumber, baud === undefined ? null : `${baud} baud`]
    .filter((x) => x !== null)
    .join(', ')

function usbOf({ vendorId, productId, serialNumber }: PortInfo): Candidate['usb'] {
  if (vendorId === null) return null
  return {
    vendorId,
    ...(productId === null ? {} : { productId }),
    ...(serialNumber === null ? {} : { serialNumber }),
  }
}

const isOf = (p: ProbeSettings, info: PortInfo): boolean =>
  'baud' in p && (p.path === info.path || (p.usb !== undefined && isMatch(info, p.usb)))
