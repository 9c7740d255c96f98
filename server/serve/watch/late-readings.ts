import type { Cancel, Clock } from '#core/measure/clock'

/** A stretch of one probe's time in which readings came late. */
export interface LateStretch {
  readonly probe: string
  readonly fromMs: number
  readonly toMs: number
}

/** A backlog is many readings: the stretch grows in its place. */
interface Stretch {
  readonly probe: string
  fromMs: number
  toMs: number
}

/** A backlog is worked up when nothing more came for a while, and at the latest after a minute. */
const QUIET_MS = 3000
const LATEST_MS = 60_000

/** Gathers readings that came late and says, once in a while, which stretches they lie in. */
export class LateReadings {
  readonly #clock: Clock
  readonly #settle: (stretches: readonly LateStretch[]) => void
  #stretches = new Map<string, Stretch>()
  #firstMs: number | null = null
  #lastMs = 0
  #cancel: Cancel | null = null

  constructor(clock: Clock, settle: (stretches: readonly LateStretch[]) => void) {
    this.#clock = clock
    this.#settle = settle
  }

  add(readings: readonly { readonly probe: string; readonly atMs: number }[]): void {
    for (const { probe, atMs } of readings) {
      const known = this.#stretches.get(probe)
      if (known === undefined) this.#stretches.set(probe, { probe, fromMs: atMs, toMs: atMs })
      else if (atMs < known.fromMs) known.fromMs = atMs
      else if (atMs > known.toMs) known.toMs = atMs
    }
    this.#lastMs = this.#clock.nowMs()
    this.#firstMs ??= this.#lastMs
    this.#cancel ??= this.#clock.after(QUIET_MS, () => this.#look())
  }

  stop(): void {
    this.#cancel?.()
  }

  /** Nothing came for a while, or something has been coming for too long: work it up; else look again. */
  #look(): void {
    const nowMs = this.#clock.nowMs()
    const quietMs = nowMs - this.#lastMs
    if (quietMs >= QUIET_MS || nowMs - (this.#firstMs ?? nowMs) >= LATEST_MS) return this.#flush()
    this.#cancel = this.#clock.after(QUIET_MS - quietMs, () => this.#look())
  }

  #flush(): void {
    const stretches = [...this.#stretches.values()]
    this.#stretches = new Map()
    this.#firstMs = null
    this.#cancel = null
    this.#settle(stretches)
  }
}
