import type { Cancel, Clock } from '#core/measure/clock'

/** A stretch of one probe's time in which readings came late. */
export interface LateStretch {
  readonly probe: string
  readonly fromMs: number
  readonly toMs: number
}

/** A backlog is worked up when nothing more came for a while, and at the latest after a minute. */
const QUIET_MS = 3000
const LATEST_MS = 60_000

/** Gathers readings that came late and says, once in a while, which stretches they lie in. */
export class LateReadings {
  readonly #clock: Clock
  readonly #settle: (stretches: readonly LateStretch[]) => void
  #stretches = new Map<string, LateStretch>()
  #firstMs: number | null = null
  #cancel: Cancel | null = null

  constructor(clock: Clock, settle: (stretches: readonly LateStretch[]) => void) {
    this.#clock = clock
    this.#settle = settle
  }

  add(probe: string, atMs: number): void {
    const known = this.#stretches.get(probe)
    const fromMs = Math.min(known?.fromMs ?? atMs, atMs)
    const toMs = Math.max(known?.toMs ?? atMs, atMs)
    this.#stretches.set(probe, { probe, fromMs, toMs })
    this.#putOff()
  }

  stop(): void {
    this.#cancel?.()
  }

  #putOff(): void {
    const nowMs = this.#clock.nowMs()
    this.#firstMs ??= nowMs
    this.#cancel?.()
    const waitMs = Math.max(0, Math.min(QUIET_MS, this.#firstMs + LATEST_MS - nowMs))
    this.#cancel = this.#clock.after(waitMs, () => this.#flush())
  }

  #flush(): void {
    const stretches = [...this.#stretches.values()]
    this.#stretches = new Map()
    this.#firstMs = null
    this.#cancel = null
    this.#settle(stretches)
  }
}
