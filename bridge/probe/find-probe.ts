import { readdir, readFile } from 'node:fs/promises'
import { join } from 'node:path'
import type { Cancel } from '#core/measure/clock'
import { scratchpadC } from '#core/measure/scratchpad'
import type { Candidate } from '#core/wire/bridge-link'
import type { ProbeSettings } from '#core/wire/probe-settings'
import { said, silentCandidate } from './candidate.ts'
import { FindPorts } from './find-ports.ts'
import { FindTopics } from './find-topics.ts'
import type { World } from './source.ts'

/** Everything is looked through this often, ms. */
const RESCAN_MS = 2000

/** Where the kernel puts its one-wire devices. */
const ONE_WIRE = '/sys/bus/w1/devices'

/**
 * Lists every port, topic and one-wire device with what it says, so that a person can warm a probe in the hand and
 * see which one it is. Runs only while asked for: opening a port restarts some boards.
 */
export class FindProbe {
  readonly #world: World
  readonly #ports: FindPorts
  readonly #topics: FindTopics
  #devices: readonly Candidate[] = []
  #cancel: Cancel | null = null
  #isOn = true
  #round: Promise<void>

  /** `used`: the probes that are set, whose ports are left alone. */
  constructor(world: World, used: () => readonly ProbeSettings[]) {
    this.#world = world
    this.#ports = new FindPorts(world, used)
    this.#topics = new FindTopics(world, used)
    this.#round = this.#look()
  }

  candidates(): readonly Candidate[] {
    return [...this.#ports.candidates(), ...this.#topics.candidates(), ...this.#devices]
  }

  async close(): Promise<void> {
    this.#isOn = false
    this.#cancel?.()
    await this.#round
    await this.#ports.close()
    await this.#topics.close()
  }

  async #look(): Promise<void> {
    this.#topics.look()
    // A list that can't be made is empty; the next look follows.
    await this.#ports.look().catch(() => {})
    this.#devices = await oneWireDevices(this.#world.clock.nowMs())
    if (!this.#isOn) return
    this.#cancel = this.#world.clock.after(RESCAN_MS, () => {
      this.#round = this.#look()
    })
  }
}

async function oneWireDevices(atMs: number): Promise<readonly Candidate[]> {
  const names = (await readdir(ONE_WIRE).catch(() => [])).filter((n) => /^[0-9a-f]{2}-[0-9a-f]{12}$/.test(n))
  const found: Candidate[] = []
  for (const name of names) {
    const text = await readFile(join(ONE_WIRE, name, 'w1_slave'), 'latin1').catch(() => '')
    const bytes = text
      .slice(0, 26)
      .split(' ')
      .map((b) => Number.parseInt(b, 16))
    const value = scratchpadC(bytes)
    const says = value.ok ? said(value.tempC.toFixed(2), atMs) : { trouble: value.found.slice(0, 100) }
    found.push({ ...silentCandidate('one-wire', name, ONE_WIRE), ...says })
  }
  return found
}
