import type { Logger } from 'pino'
import { HeatWorkEnded } from './heat/heat-work.ts'

/** What goes wrong in the program itself: it is logged, and of the watch people are told. */
export class Faults {
  readonly #log: Logger
  #trouble: string | null = null

  constructor(log: Logger) {
    this.#log = log
  }

  /** What a person should know; `null` while the watch is sound. */
  get trouble(): string | null {
    return this.#trouble
  }

  readonly ofWatch = (error: unknown): void => {
    this.#trouble = 'the watch met a fault of the program: alarms may be missing; see the log'
    this.#log.error({ err: error }, 'the watch failed')
  }

  readonly ofHeat = (error: unknown): void => {
    if (!(error instanceof HeatWorkEnded)) this.#log.error({ err: error }, 'a pot could not be learned')
  }
}
