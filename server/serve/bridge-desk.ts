import { createHash } from 'node:crypto'
import type { Clock } from '#core/measure/clock'
import {
  type BridgeSettings,
  type BridgeState,
  type Candidate,
  type ProbeLimit,
  type ProbeReport,
  probesOfBridge,
} from '#core/wire/bridge-link'
import { decodeProbe, type ProbeSettings } from '#core/wire/probe-settings'
import type { Settings } from '#core/wire/settings'
import type { ProbeStore } from '../store/probes.ts'

/** A bridge tells its state every 2 s; after this long without it is lost, ms. */
const LOST_MS = 10_000

/** A search for a probe ends by itself. */
const FIND_MS = 10 * 60_000

interface Known {
  readonly state: BridgeState
  readonly seenMs: number
  readonly up: boolean
}

/** What bridges are told and what they tell. */
export class BridgeDesk {
  readonly #clock: Clock
  readonly #settings: () => Settings
  readonly #onUp: (bridge: string, up: boolean) => void
  readonly #hasOwn: boolean
  readonly #bridges = new Map<string, Known>()
  #fromPage: readonly ProbeSettings[] = []
  #findUntilMs = 0

  /** `hasOwn`: a bridge was started beside the server. */
  constructor(
    clock: Clock,
    settings: () => Settings,
    onUp: (bridge: string, up: boolean) => void,
    hasOwn: boolean,
  ) {
    this.#clock = clock
    this.#settings = settings
    this.#onUp = onUp
    this.#hasOwn = hasOwn
  }

  /** Reads the probes that were set on the page. One that this version can't read any more is left out. */
  async load(probes: ProbeStore): Promise<void> {
    const decoded = (await probes.list()).flatMap((p) => (p.setting === null ? [] : [decodeProbe(p.setting)]))
    this.#fromPage = decoded.filter((p) => typeof p !== 'string')
  }

  /** One list: where file and page name the same probe, the file's stands. */
  probeSettings(): readonly ProbeSettings[] {
    const inFile = this.#settings().probes
    return [...inFile, ...this.#fromPage.filter((p) => !inFile.some((q) => q.name === p.name))]
  }

  isInFile(name: string): boolean {
    return this.#settings().probes.some((p) => p.name === name)
  }

  /** What this bridge is to do. A probe that names no bridge, and the broker, belong to the server's own. */
  forBridge(
    { bridge, isOwn }: { readonly bridge: string; readonly isOwn: boolean },
    limits: readonly ProbeLimit[] = [],
  ): { readonly settings: BridgeSettings; readonly etag: string } {
    const hasOwn = this.#hasOwn
    const steady = {
      probes: probesOfBridge(this.probeSettings(), bridge, { isOwn, hasOwn }),
      find: this.isFinding,
      broker: isOwn || !hasOwn ? (this.#settings().broker ?? null) : null,
      lamp: this.#settings().lamp ?? null,
      limits,
    }
    const etag = `"${createHash('sha256').update(JSON.stringify(steady)).digest('base64url').slice(0, 22)}"`
    return { settings: { ...steady, nowMs: this.#clock.nowMs() }, etag }
  }

  get isFinding(): boolean {
    return this.#clock.nowMs() < this.#findUntilMs
  }

  find(on: boolean): void {
    this.#findUntilMs = on ? this.#clock.nowMs() + FIND_MS : 0
  }

  hear(state: BridgeState): void {
    const wasUp = this.#bridges.get(state.bridge)?.up ?? false
    this.#bridges.set(state.bridge, { state, seenMs: this.#clock.nowMs(), up: true })
    if (!wasUp) this.#onUp(state.bridge, true)
  }

  /** Each second: a bridge that has gone silent is lost. */
  tick(nowMs: number): void {
    for (const [name, known] of this.#bridges) {
      if (!known.up || nowMs - known.seenMs <= LOST_MS) continue
      this.#bridges.set(name, { ...known, up: false })
      this.#onUp(name, false)
    }
  }

  all(): readonly { readonly state: BridgeState; readonly seenMs: number; readonly up: boolean }[] {
    return [...this.#bridges.values()]
  }

  report(probe: string): ProbeReport | null {
    const reports = this.all().flatMap(({ state, up }) => (up ? state.probes : []))
    return reports.find((report) => report.probe === probe) ?? null
  }

  candidates(): readonly (Candidate & { readonly bridge: string })[] {
    return this.all().flatMap(({ state, up }) =>
      up ? (state.candidates ?? []).map((c) => Object.assign({}, c, { bridge: state.bridge })) : [],
    )
  }
}
