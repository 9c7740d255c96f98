import type { LiftTime, Wake } from '#core/watch/lift-time'
import { nextClockMs } from '#core/watch/next-clock'
import type { PotNumbers } from '#core/wire/live'
import type { WakeWish } from '../../store/night.ts'
import { personOf } from '../person-of.ts'
import type { Studio } from '../studio.ts'

type WakeStudio = Pick<Studio, 'store' | 'recorder' | 'clock' | 'watching' | 'settings'>

interface Kept {
  /** Wish, stage and lid: once one of them changes, the bath is looked at anew. */
  readonly key: string
  readonly madeMs: number
  readonly lift: LiftTime
}

/** A cool-down goes by minutes: it is looked at anew this often, ms. */
const EVERY_MS = 10_000

/** Knows when the dyer gets up, and says of each bath that cools whether it can be lifted by then. */
export class WakeDesk {
  readonly #studio: WakeStudio
  readonly #kept = new Map<string, Kept>()
  #said: WakeWish | null = null

  constructor(studio: WakeStudio) {
    this.#studio = studio
  }

  async load(): Promise<void> {
    this.#said = await this.#studio.store.night.wakeWish()
  }

  /** As said at bedtime; before anybody has, as the settings have it. */
  wish(): WakeWish {
    const { wakeAt = null, liftC } = this.#studio.settings()
    return this.#said ?? { wakeAt, liftC }
  }

  async say(wish: WakeWish): Promise<void> {
    await this.#studio.recorder.write(() => this.#studio.store.night.setWakeWish(wish))
    this.#said = wish
  }

  /** When the alarm clock next rings after `atMs`; `null`: none is set. */
  wake(atMs = this.#studio.clock.nowMs()): Wake | null {
    const { wakeAt, liftC } = this.wish()
    if (wakeAt === null) return null
    return { wakeMs: nextClockMs(atMs, wakeAt, personOf(this.#studio.settings()).zone), liftC }
  }

  /** The numbers with what the night has to say of them. */
  on<N extends PotNumbers>(numbers: N): N {
    return { ...numbers, lift: this.#lift(numbers) }
  }

  #lift({ potId, stageStartedMs, lid }: PotNumbers): LiftTime | null {
    const nowMs = this.#studio.clock.nowMs()
    const wake = this.wake(nowMs)
    if (wake === null) return null
    const key = JSON.stringify([this.wish(), stageStartedMs, lid])
    const kept = this.#kept.get(potId)
    if (kept?.key === key && nowMs - kept.madeMs < EVERY_MS) return kept.lift
    const lift = this.#studio.watching.liftTime(potId, wake)
    if (lift !== null) this.#kept.set(potId, { key, madeMs: nowMs, lift })
    return lift
  }
}
