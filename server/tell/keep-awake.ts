import type { Cancel, Clock } from '#core/measure/clock'

/** Something that keeps the computer awake until it is ended. */
export interface Inhibitor {
  end(): void
}

/** Starts one; `onEnd` is called once if it ends by itself, with the reason. Throws nothing. */
export type StartInhibitor = (onEnd: (why: string) => void) => Inhibitor

export type AwakeState =
  | { readonly kind: 'not-needed' }
  | { readonly kind: 'kept-awake' }
  /** The computer may fall asleep; `why` is one sentence. */
  | { readonly kind: 'may-sleep'; readonly why: string }

/** The system may have had no seat or no bus just then; asking again every five minutes costs nothing. */
const TRY_AGAIN_MS = 300_000

/** Keeps the computer from sleeping while a burner is noted on. Where that is not possible it says so. */
export class KeepAwake {
  readonly #clock: Clock
  readonly #start: StartInhibitor
  #inhibitor: Inhibitor | null = null
  #retry: Cancel | null = null
  #state: AwakeState = { kind: 'not-needed' }

  constructor(clock: Clock, start: StartInhibitor) {
    this.#clock = clock
    this.#start = start
  }

  get state(): AwakeState {
    return this.#state
  }

  /** May be called as often as one likes. */
  want(isBurnerOn: boolean): void {
    if (!isBurnerOn) this.stop()
    else if (this.#state.kind === 'not-needed') this.#begin()
  }

  #begin(): void {
    this.#state = { kind: 'kept-awake' }
    this.#inhibitor = this.#start((why) => {
      if (this.#state.kind === 'not-needed') return
      this.#inhibitor = null
      this.#state = { kind: 'may-sleep', why }
      this.#retry = this.#clock.after(TRY_AGAIN_MS, () => this.#begin())
    })
  }

  stop(): void {
    this.#retry?.()
    this.#retry = null
    this.#state = { kind: 'not-needed' }
    this.#inhibitor?.end()
    this.#inhibitor = null
  }
}
