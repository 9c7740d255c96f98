import type { PotBelief } from '#core/bath/pot-belief'
import type { Vessel } from '#core/bath/vessel'
import type { Clock } from '#core/measure/clock'
import type { TaughtTrace } from '../../store/heat.ts'
import { carryBelief } from './carry-belief.ts'
import { isOfToday, lastKnown, learnFills, type LearnParts } from './learn-fills.ts'

export interface BurnerBookParts extends LearnParts {
  readonly clock: Clock
  /** The pot as it stands now; `null` when it is gone or its vessel isn't known. */
  readonly vesselOf: (potId: string) => Vessel | null
  /** The probe that hangs in it now. */
  readonly probeOf: (potId: string) => string | null
  /** Something new is believed of a pot. */
  readonly onLearned: (potId: string) => void
  readonly onFailure: (error: unknown) => void
}

/** What one pot taught so far. */
interface Page {
  readonly taught: readonly TaughtTrace[]
  readonly burnerChangesMs: readonly number[]
}

/** A belief as it was worked out of a page; another page is another object. */
interface Cached {
  readonly page: Page
  readonly key: string
  readonly belief: PotBelief
}

const EMPTY: Page = { taught: [], burnerChangesMs: [] }

/** Knows every pot on its burner: learned from the record, one fill after the other, and kept in the store. */
export class BurnerBook {
  readonly #parts: BurnerBookParts
  readonly #pages = new Map<string, Page>()
  readonly #cached = new Map<string, Cached>()
  #order: Promise<void> = Promise.resolve()
  #isClosed = false

  constructor(parts: BurnerBookParts) {
    this.#parts = parts
  }

  /** Takes up what was learned before. */
  async load(potIds: readonly string[]): Promise<void> {
    for (const potId of potIds) this.#pages.set(potId, await this.#read(potId))
  }

  /** What is believed of the pot as it stands now; `null` where its vessel isn't known. */
  beliefOf(
    potId: string,
    vessel = this.#parts.vesselOf(potId),
    atMs = this.#parts.clock.nowMs(),
  ): PotBelief | null {
    if (vessel === null) return null
    const page = this.page(potId)
    // A belief fades by the day; within an hour it is the same object, so that what is worked out of it can be kept.
    const key = JSON.stringify([vessel, Math.floor(atMs / 3_600_000)])
    const known = this.#cached.get(potId)
    if (known?.page === page && known.key === key) return known.belief
    const { taught, burnerChangesMs } = page
    const belief = carryBelief(lastKnown(taught), { vessel, atMs, burnerChangesMs })
    this.#cached.set(potId, { page, key, belief })
    return belief
  }

  page(potId: string): Page {
    return this.#pages.get(potId) ?? EMPTY
  }

  /** No trace has been learned from since the burner is this one: everything said of it is a guess. */
  isGuess(potId: string): boolean {
    const { taught, burnerChangesMs } = this.page(potId)
    const sinceMs = burnerChangesMs.at(-1) ?? 0
    return !taught.some(
      ({ fromMs, lesson }) =>
        fromMs >= sinceMs &&
        lesson !== null &&
        isOfToday(lesson) &&
        lesson.misfitC !== null &&
        lesson.isLike !== false,
    )
  }

  /** Learns when there is time: a stage has ended, late readings came, or a note was taken back. */
  learnSoon(potId: string, sinceMs?: number): void {
    void this.learn(potId, sinceMs).catch(this.#parts.onFailure)
  }

  /**
   * Learns what is new in the record of a pot, and anew what the record was changed in: every fill from `sinceMs` on
   * (Unix ms; 0: all of them). One pot at a time.
   */
  learn(potId: string, sinceMs = Infinity): Promise<void> {
    const next = this.#order.then(() => this.#learn(potId, sinceMs))
    this.#order = next.catch(() => undefined)
    return next
  }

  async changeBurner(potId: string, who: string | null): Promise<void> {
    const { store, recorder, clock } = this.#parts
    await recorder.write(() => store.heat.addBurnerChange({ potId, atMs: clock.nowMs(), who }))
    this.#pages.set(potId, await this.#read(potId))
    this.#parts.onLearned(potId)
  }

  /** A guided evening is done: its span is learned from like a fill with goods. */
  async addEvening(potId: string, fromMs: number, toMs: number): Promise<void> {
    const { store, recorder } = this.#parts
    const litres = this.#parts.vesselOf(potId)?.litres ?? 0
    await recorder.write(() =>
      store.heat.putTaught({ potId, fromMs, toMs, batchId: null, litres, lesson: null }),
    )
    await this.learn(potId)
  }

  /** Breaks off what is being learned, which is begun again after the next start: a fit may take long, or hang. */
  async close(): Promise<void> {
    this.#isClosed = true
    await this.#parts.work.close()
    await this.#order
  }

  async #learn(potId: string, sinceMs: number): Promise<void> {
    const vessel = this.#parts.vesselOf(potId)
    if (vessel === null || this.#isClosed) return
    const probe = this.#parts.probeOf(potId)
    const isNew = await learnFills(this.#parts, { potId, vessel, probe }, sinceMs, () => this.#isClosed)
    if (!isNew || this.#isClosed) return
    this.#pages.set(potId, await this.#read(potId))
    this.#parts.onLearned(potId)
  }

  async #read(potId: string): Promise<Page> {
    const { heat } = this.#parts.store
    return { taught: await heat.taught(potId), burnerChangesMs: await heat.burnerChanges(potId) }
  }
}
