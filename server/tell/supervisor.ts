import type { Clock } from '#core/measure/clock'

/** What the system that supervises this program told it in its environment (`systemd.exec`, `sd_notify`). */
export interface SupervisorEnvironment {
  readonly NOTIFY_SOCKET?: string | undefined
  readonly WATCHDOG_USEC?: string | undefined
}

/** Sends assignments such as `WATCHDOG=1`; never throws. */
export type Notify = (assignments: readonly string[]) => void

/**
 * Tells the supervisor that the program is ready and that its watch goes round. The beat comes from the loop of the
 * watch alone: a timer of its own would go on while the watch stands still.
 */
export class Supervisor {
  readonly #clock: Clock
  readonly #notify: Notify
  /** Half the time the supervisor waits, as `sd_watchdog_enabled(3)` advises, ms; `null`: it does not wait for a beat. */
  readonly #beatMs: number | null
  #lastBeatMs = Number.NEGATIVE_INFINITY

  constructor(clock: Clock, environment: SupervisorEnvironment, notify: Notify) {
    const isThere = environment.NOTIFY_SOCKET !== undefined && environment.NOTIFY_SOCKET !== ''
    this.#clock = clock
    this.#notify = isThere ? notify : () => undefined
    this.#beatMs = isThere ? halfOf(environment.WATCHDOG_USEC) : null
  }

  ready(): void {
    this.#notify(['READY=1'])
  }

  /** Each time round of the watch. */
  beat(): void {
    const nowMs = this.#clock.nowMs()
    if (this.#beatMs === null || nowMs - this.#lastBeatMs < this.#beatMs) return
    this.#lastBeatMs = nowMs
    this.#notify(['WATCHDOG=1'])
  }

  stopping(): void {
    this.#notify(['STOPPING=1'])
  }
}

function halfOf(usec: string | undefined): number | null {
  const ms = Number(usec) / 1000
  return usec !== undefined && Number.isFinite(ms) && ms > 0 ? ms / 2 : null
}
