import type { Cancel, Clock } from '#core/measure/clock'
import type { BridgeState } from '#core/wire/bridge-link'
import type { ServerWay } from './server-way.ts'

const EVERY_MS = 2000
/** Changes that come together are told together, ms. */
const GATHER_MS = 100

/** Tells the server how probes and outbox are, every 2 s and soon after a change. */
export class TellState {
  readonly #way: ServerWay
  readonly #clock: Clock
  readonly #state: () => BridgeState
  readonly #onHeard: () => void
  #cancel: Cancel
  #isUnderWay = false
  /** Something changed while the last state was on its way. */
  #isChanged = false
  #isClosed = false

  /** @param onHeard called at each answer that says: stored, and watched. */
  constructor(way: ServerWay, clock: Clock, state: () => BridgeState, onHeard: () => void) {
    this.#onHeard = onHeard
    this.#way = way
    this.#clock = clock
    this.#state = state
    this.#cancel = clock.after(GATHER_MS, () => void this.#tell())
  }

  changed(): void {
    if (this.#isClosed) return
    this.#isChanged = this.#isUnderWay
    if (this.#isUnderWay) return
    this.#cancel()
    this.#cancel = this.#clock.after(GATHER_MS, () => void this.#tell())
  }

  close(): void {
    this.#isClosed = true
    this.#cancel()
  }

  async #tell(): Promise<void> {
    this.#isUnderWay = true
    this.#isChanged = false
    const answer = await this.#way.ask({
      method: 'POST',
      path: '/api/bridge/state',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify(this.#state()),
    })
    this.#isUnderWay = false
    if (answer.ok && answer.status >= 200 && answer.status < 300) this.#onHeard()
    if (!this.#isClosed)
      this.#cancel = this.#clock.after(this.#isChanged ? GATHER_MS : EVERY_MS, () => void this.#tell())
  }
}
