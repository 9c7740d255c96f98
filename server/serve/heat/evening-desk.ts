import {
  EVENING_STEPS,
  type EveningState,
  startEvening,
  stepEvening,
  viewEvening,
} from '#core/bath/learning-evening'
import { guessPot, type PotBelief } from '#core/bath/pot-belief'
import type { PotReading } from '#core/bath/pot-reading'
import type { EveningAnswer, EveningRunning } from '#core/wire/burner'
import type { PotNumbers } from '#core/wire/live'
import { Problem } from '../http/problem.ts'
import type { Studio } from '../studio.ts'
import { EVENING_REFUSALS, eveningRefusal } from './evening-refusal.ts'
import type { HeatWork } from './heat-work.ts'
import { loadDay } from './load-day.ts'

/** An evening on its way. `begun`: what was believed when it began. */
interface Evening {
  readonly startedMs: number
  readonly state: EveningState
  readonly begun: PotBelief
  /** What is believed by now. */
  readonly belief: PotBelief
  readonly learnedMs: number
}

type EveningStudio = Pick<Studio, 'store' | 'recorder' | 'clock' | 'stove' | 'watching' | 'burners'>

const STEP_MS = 10_000
const LEARN_MS = 60_000
/** Nobody goes on with an evening after so long, ms. */
const LONGEST_MS = 8 * 3_600_000

/** Runs the guided evenings: says what to set, waits until it is noted, and goes on when enough is known. */
export class EveningDesk {
  readonly #studio: EveningStudio
  readonly #work: HeatWork
  readonly #onFailure: (error: unknown) => void
  readonly #evenings = new Map<string, Evening>()
  #steppedMs = 0
  #order: Promise<void> = Promise.resolve()

  constructor(studio: EveningStudio, work: HeatWork, onFailure: (error: unknown) => void) {
    this.#studio = studio
    this.#work = work
    this.#onFailure = onFailure
  }

  async load(): Promise<void> {
    for (const { potId, body } of await this.#studio.store.heat.evenings())
      this.#evenings.set(potId, body as Evening)
  }

  answer(potId: string): EveningAnswer {
    const { watching, burners, stove } = this.#studio
    const evening = this.#evenings.get(potId)
    const tempC = watching.numbers(potId).tempC
    const refusal = eveningRefusal(stove.find(potId), tempC)
    return {
      potId,
      tempC,
      running: evening === undefined ? null : this.#running(potId, evening),
      lastDoneMs: burners.page(potId).taught.findLast((row) => row.batchId === null)?.toMs ?? null,
      // What runs has begun: the water may be warm by now, or its probe be out for a look.
      cannot: evening !== undefined && (refusal === 'no-reading' || refusal === 'too-warm') ? null : refusal,
    }
  }

  /** The numbers with the step of a running evening. */
  on<N extends PotNumbers>(numbers: N): N {
    const evening = this.#evenings.get(numbers.potId)
    const running = evening === undefined ? null : this.#running(numbers.potId, evening)
    if (running === null) return { ...numbers, evening: null }
    const { step, set, isSet } = running
    return { ...numbers, evening: { step, ...set, isSet } }
  }

  async start(potId: string): Promise<void> {
    if (this.#evenings.has(potId)) throw new Problem(409, 'the evening of this pot is running already')
    const { tempC } = this.#studio.watching.numbers(potId)
    const cannot = eveningRefusal(this.#studio.stove.find(potId), tempC)
    if (cannot !== null || tempC === null) throw new Problem(409, EVENING_REFUSALS[cannot ?? 'no-reading'])
    const nowMs = this.#studio.clock.nowMs()
    const vessel = this.#studio.stove.find(potId)!.pot.vessel!
    const begun = this.#studio.burners.beliefOf(potId) ?? guessPot(vessel)
    const state = startEvening(begun, nowMs, tempC)
    await this.#keep(potId, { startedMs: nowMs, state, begun, belief: begun, learnedMs: nowMs })
  }

  /** `learn`: what was seen so far counts all the same. */
  async stop(potId: string, learn: boolean): Promise<void> {
    const evening = this.#evenings.get(potId)
    if (evening === undefined) throw new Problem(409, 'no evening is running at this pot')
    await this.#end(potId, evening, learn)
  }

  /** Called with each tick of the watch; does something every ten seconds. */
  tick(atMs: number): void {
    if (atMs - this.#steppedMs < STEP_MS || this.#evenings.size === 0) return
    this.#steppedMs = atMs
    this.#order = this.#order.then(() => this.#stepAll(atMs)).catch(this.#onFailure)
  }

  /** Resolves once what was begun is done. */
  settled(): Promise<void> {
    return this.#order
  }

  async #stepAll(atMs: number): Promise<void> {
    for (const [potId, evening] of this.#evenings) await this.#step(potId, evening, atMs)
  }

  async #step(potId: string, evening: Evening, atMs: number): Promise<void> {
    if (atMs - evening.startedMs > LONGEST_MS) return this.#end(potId, evening, true)
    const { tempC } = this.#studio.watching.numbers(potId)
    if (tempC === null || evening.state.kind === 'done') return
    if (!this.#isSet(potId, evening.state)) {
      // The step begins once it is set: until then its time stands still.
      return this.#keep(potId, { ...evening, state: { ...evening.state, sinceMs: atMs, startC: tempC } })
    }
    const asLearned = (known: Evening) => stepEvening(known.state, { atMs, tempC, belief: known.belief })
    // What a step asks for is worked out of all that was seen up to its begin.
    const isDue = atMs - evening.learnedMs >= LEARN_MS || asLearned(evening) !== evening.state
    const learned = isDue ? await this.#learn(potId, evening, atMs) : evening
    const state = asLearned(learned)
    if (state.kind === 'done') return this.#end(potId, { ...learned, state }, true)
    if (state !== evening.state || learned !== evening) await this.#keep(potId, { ...learned, state })
  }

  async #learn(potId: string, evening: Evening, atMs: number): Promise<Evening> {
    const { vessel } = evening.begun
    const { store, stove } = this.#studio
    const probe = stove.find(potId)?.pot.probe ?? null
    if (probe === null) return evening
    const runs = [{ stage: null, probe, startedMs: evening.startedMs, endedMs: atMs }]
    const span = { batchId: null, fromMs: evening.startedMs, toMs: atMs, runs, litres: vessel.litres }
    const day = await loadDay(store, potId, span, vessel)
    if (day === null) return evening
    const readings: readonly PotReading[] = day.trace.readings
    if (readings.length < 2) return { ...evening, learnedMs: atMs }
    const belief = await this.#work.run({ kind: 'so-far', before: evening.begun, trace: day.trace })
    return { ...evening, belief, learnedMs: atMs }
  }

  async #end(potId: string, evening: Evening, learn: boolean): Promise<void> {
    await this.#keep(potId, null)
    const { burners, clock } = this.#studio
    if (learn) await burners.addEvening(potId, evening.startedMs, clock.nowMs())
  }

  async #keep(potId: string, evening: Evening | null): Promise<void> {
    if (evening === null) this.#evenings.delete(potId)
    else this.#evenings.set(potId, evening)
    await this.#studio.recorder.keep(() => this.#studio.store.heat.setEvening(potId, evening))
  }

  #running(potId: string, { startedMs, state, belief }: Evening): EveningRunning | null {
    const { tempC, dial, lid } = this.#studio.watching.numbers(potId)
    const atMs = this.#studio.clock.nowMs()
    if (state.kind === 'done') return null
    const view = viewEvening(state, { atMs, tempC: tempC ?? state.startC, belief })
    return {
      startedMs,
      step: state.step,
      set: view.set ?? { dial: state.dial, lid: state.lid },
      noted: { dial, lid },
      isSet: this.#isSet(potId, state),
      leftMin: view.leftMin,
      isEnough: view.isEnough,
      stepsDone: view.stepsDone,
      stepsInAll: EVENING_STEPS.length,
    }
  }

  #isSet(potId: string, state: Extract<EveningState, { kind: 'running' }>): boolean {
    const { dial, lid } = this.#studio.watching.numbers(potId)
    return dial === state.dial && (lid ?? 'on') === state.lid
  }
}
