import type { Cancel, Clock } from '#core/measure/clock'
import type { Reading } from '#core/measure/reading'
import type { Happening } from '#core/watch/happening'
import type { LiftTime, Wake } from '#core/watch/lift-time'
import type { StoveInput } from '#core/watch/stove-input'
import type { PotNumbers } from '#core/wire/live'
import type { Store } from '../../store/store.ts'
import type { ReadingSink } from '../intake/intake.ts'
import type { DayFold } from './day-fold.ts'
import { standingAlarms } from './fold-record.ts'
import { isAfter } from './folded-so-far.ts'
import { LateReadings, type LateStretch } from './late-readings.ts'
import { touchedBatches } from './touched-batches.ts'
import { NoticeMemory } from './notice-memory.ts'
import { Outcomes } from './outcomes.ts'
import type { PotsOnStove } from './pots-on-stove.ts'
import type { NewStoveWatch, StoveWatch } from './stove-watch.ts'
import type { Teller } from './teller.ts'

const TICK_MS = 1000

/** From older readings nobody is called, ms. */
const LIVE_MS = 30_000

export interface WatchingParts {
  readonly store: Store
  readonly clock: Clock
  readonly stove: PotsOnStove
  readonly teller: Teller
  readonly newWatch: NewStoveWatch
  readonly day: DayFold
  readonly outcomes: Outcomes
  /** After each tick: the sign that the watch is running. */
  readonly onTick: (atMs: number) => void
  /** The watch itself failed: a fault of the program, to be told loudly. */
  readonly onFailure: (error: unknown) => void
}

/** The watch at work: feeds it in time order, each second too, and makes it again from the record. */
export class Watching implements ReadingSink {
  readonly #parts: WatchingParts
  readonly #late: LateReadings
  readonly #notices: NoticeMemory
  #watch: StoveWatch
  #lastMs = 0
  #lastTickMs = 0
  /** While the day is folded again, what comes meanwhile. */
  #meanwhile: StoveInput[] | null = null
  #order: Promise<void> = Promise.resolve()
  #cancelTick: Cancel | null = null

  constructor(parts: WatchingParts) {
    this.#parts = parts
    this.#watch = parts.newWatch()
    this.#notices = new NoticeMemory(parts.store.messages)
    this.#late = new LateReadings(
      parts.clock,
      (stretches) => void this.#settle(stretches).catch(parts.onFailure),
    )
  }

  /** Takes the day up from the record, then ticks. */
  async start(): Promise<void> {
    await this.#parts.day.open()
    await this.rebuild()
    this.#tick()
  }

  async stop(): Promise<void> {
    this.#cancelTick?.()
    this.#late.stop()
    await this.#order
    await this.saveOutcomes()
    await this.#parts.day.keep(this.#parts.clock.nowMs()).catch(this.#parts.onFailure)
  }

  /** When the loop last went round, Unix ms. */
  get lastTickMs(): number {
    return this.#lastTickMs
  }

  live(reading: Reading): void {
    this.#feed({ kind: 'reading', atMs: reading.atMs, reading })
  }

  late(readings: readonly Reading[]): void {
    this.#late.add(readings)
  }

  /** Something was done or noted. What lies behind what the watch has seen makes it fold the day again. */
  async note(...inputs: readonly StoveInput[]): Promise<void> {
    await this.#order
    const isBehind = (input: StoveInput) => input.kind !== 'pot' && input.atMs < this.#lastMs - TICK_MS
    if (inputs.some(isBehind)) return this.rebuild()
    for (const input of inputs) this.#feed(input.kind === 'pot' ? this.#fromNow(input) : input)
  }

  /** What is newly known of a pot holds from now on, however long a fold has kept it waiting. */
  #fromNow(input: Extract<StoveInput, { kind: 'pot' }>): StoveInput {
    return { ...input, atMs: Math.max(input.atMs, this.#lastMs) }
  }

  numbers(potId: string): PotNumbers {
    return this.#watch.numbers(potId, this.#parts.clock.nowMs())
  }

  /** The way of the bath from now on if nothing is touched. */
  forecast(potId: string) {
    return this.#watch.forecast(potId, this.#parts.clock.nowMs())
  }

  /** Whether a bath that cools can be lifted when the alarm clock rings. */
  liftTime(potId: string, wake: Wake): LiftTime | null {
    return this.#watch.liftTime(potId, this.#parts.clock.nowMs(), wake)
  }

  /** Makes the watch again from the record. One at a time. */
  rebuild(): Promise<void> {
    const next = this.#order.then(() => this.#rebuild())
    this.#order = next.catch((error: unknown) => {
      // Nobody waits for it any more; it would grow with every reading.
      this.#meanwhile = null
      this.#parts.onFailure(error)
    })
    return this.#order
  }

  /** What the stages of a batch have come to by now. */
  outcomes(potId: string) {
    return this.#watch.outcomes(potId, this.#parts.clock.nowMs())
  }

  coolings(potId: string) {
    return this.#watch.coolings(potId)
  }

  async saveOutcomes(): Promise<void> {
    await this.#parts.outcomes.save(this.#parts.stove.batches(), this.#watch, this.#parts.clock.nowMs())
  }

  #tick(): void {
    const atMs = this.#parts.clock.nowMs()
    this.#feed({ kind: 'tick', atMs })
    this.#parts.teller.tick(atMs)
    this.#lastTickMs = atMs
    if (Math.floor(atMs / 1000) % 30 === 0) void this.saveOutcomes()
    void this.#parts.day.tick(atMs).catch(this.#parts.onFailure)
    this.#parts.onTick(atMs)
    this.#cancelTick = this.#parts.clock.after(TICK_MS, () => this.#tick())
  }

  #feed(input: StoveInput): void {
    this.#lastMs = Math.max(this.#lastMs, input.atMs)
    this.#meanwhile?.push(input)
    for (const happening of this.#step(this.#watch, input)) this.#tell(happening, false)
  }

  /** The watch is pure: when it fails on an input it stands as before, and the next one is tried. */
  #step(watch: StoveWatch, input: StoveInput): readonly Happening[] {
    try {
      return watch.step(input)
    } catch (error) {
      this.#parts.onFailure(error)
      return []
    }
  }

  #tell(happening: Happening, isFolded: boolean): void {
    const isLate = this.#parts.clock.nowMs() - happening.atMs > LIVE_MS
    if (happening.kind === 'alarm') this.#parts.teller.alarm(happening, isLate)
    else if (this.#notices.isNew(happening, isFolded)) this.#parts.teller.notice(happening, !isLate)
  }

  async #rebuild(): Promise<void> {
    this.#meanwhile = []
    const { clock, stove, teller, day } = this.#parts
    await stove.refresh()
    const toMs = clock.nowMs()
    const { fromMs, watch, found, standing, newest } = await day.upTo(toMs)
    await this.#notices.load(fromMs)
    const missed = this.#meanwhile.filter((input) => isAfter(input, toMs, newest))
    this.#meanwhile = null
    const sinceThen = missed.flatMap((input) => this.#step(watch, input))
    this.#watch = watch
    for (const happening of [...found, ...sinceThen]) this.#tell(happening, true)
    teller.endUnfounded(standingAlarms([...standing, ...sinceThen]), clock.nowMs())
    teller.tick(clock.nowMs())
  }

  /** Late readings: of running stages the day is folded again, of ended ones what they came to is made again. */
  async #settle(stretches: readonly LateStretch[]): Promise<void> {
    const touched = await touchedBatches(this.#parts.store, stretches)
    if (touched.some(({ isRunning }) => isRunning)) await this.rebuild()
    await this.saveOutcomes()
    for (const { batchId, isRunning, fromMs, toMs } of touched)
      if (!isRunning) await this.#parts.outcomes.remake(batchId, { fromMs, toMs })
  }
}
