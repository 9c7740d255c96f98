import { type BeliefState, believe, startBelief } from '#core/measure/believe'
import { parseEvent } from '#core/plan/event'
import type { Plan } from '#core/plan/plan'
import type { Happening } from '#core/watch/happening'
import { type StoveState, potNumbers, startStove, stepStove } from '#core/watch/stove'
import type { PotSetup, StoveInput } from '#core/watch/stove-input'
import { type RichLid, RichPot, type RichPotMoment, type RichPotSetup } from './rich-pot.ts'

export interface RichWatchSetup {
  readonly pot: RichPotSetup
  readonly plan: Plan
  /** The lag that the watch is told; `null`: nothing. */
  readonly toldLagS: number | null
  readonly periodS?: number
  readonly roomC?: (s: number) => number
  readonly setup?: Partial<PotSetup>
}

const START_MS = Date.UTC(2026, 2, 12, 8)

/** A rich pot under the watch, second by second, with somebody's hands on it. */
export class RichWatch {
  readonly pot: RichPot
  readonly happenings: Happening[] = []
  state: StoveState
  dial01 = 0
  lid: RichLid = 'on'
  s = 0
  moment: RichPotMoment
  #belief: BeliefState = startBelief()
  readonly #setup: RichWatchSetup

  constructor(setup: RichWatchSetup) {
    this.#setup = setup
    this.pot = new RichPot(setup.pot)
    this.moment = this.pot.step(0.001, 0, 'on', this.#roomC())
    this.state = startStove()
    const pot: PotSetup = { title: 'Pot', vessel: null, lagS: setup.toldLagS, ...setup.setup }
    this.#feed({ kind: 'pot', atMs: START_MS, potId: 'pot', pot })
    this.#feed({ kind: 'assign', atMs: START_MS, potId: 'pot', probe: 'pot', use: 'on' })
    this.#feed({
      kind: 'batch',
      atMs: START_MS,
      potId: 'pot',
      batchId: 1,
      plan: setup.plan,
      dryWeightG: null,
      goodsIn: false,
    })
  }

  get atMs(): number {
    return START_MS + this.s * 1000
  }

  note(words: string): void {
    for (const word of words.split(' ')) {
      const parsed = parseEvent(word)
      if (!parsed.ok) throw new Error(parsed.why)
      this.#feed({ kind: 'event', atMs: this.atMs, potId: 'pot', event: parsed.event })
    }
  }

  /** Turns the dial and notes it, as a dyer does who keeps the record. */
  turn(dial01: number): void {
    this.dial01 = Math.min(1, Math.max(0, dial01))
    this.note(`dial:${Number((this.dial01 * 10).toFixed(1))}`)
  }

  /** Runs on while `go` says so, at most `forS` seconds; `hands` acts each second. */
  run(forS: number, hands: (watch: RichWatch) => void = () => {}, go: () => boolean = () => true): void {
    const endS = this.s + forS
    while (this.s < endS && go()) {
      this.s += 1
      this.moment = this.pot.step(1, this.dial01, this.lid, this.#roomC())
      hands(this)
      if (this.s % (this.#setup.periodS ?? 1) === 0) this.#read()
      this.#feed({ kind: 'tick', atMs: this.atMs })
    }
  }

  has(name: string): boolean {
    return this.happenings.some((h) => (h.kind === 'notice' ? h.notice : h.alarm) === name)
  }

  /** Seconds of the run at which an alarm was raised. */
  raisedS(alarm: string): readonly number[] {
    return this.happenings
      .filter((h) => h.kind === 'alarm' && h.alarm === alarm && h.change === 'raised')
      .map((h) => (h.atMs - START_MS) / 1000)
  }

  /** Seconds of the run at which the bath is told to be cool enough, as forecast now. */
  forecastCoolS(): number | null {
    const ms = potNumbers(this.state, 'pot', this.atMs).forecast?.reachesCoolToMs ?? null
    return ms === null ? null : (ms - START_MS) / 1000
  }

  #read(): void {
    const sample = { kind: 'temp', probe: 'pot', atMs: this.atMs, rawC: this.moment.readingC } as const
    const { state, reading } = believe(this.#belief, sample, (rawC) => rawC)
    this.#belief = state
    this.#feed({ kind: 'reading', atMs: this.atMs, reading })
  }

  #roomC(): number {
    return this.#setup.roomC?.(this.s) ?? 19
  }

  #feed(input: StoveInput): void {
    const step = stepStove(this.state, input)
    this.state = step.state
    this.happenings.push(...step.happenings)
  }
}
