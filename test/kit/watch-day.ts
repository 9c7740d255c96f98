import type { BathEvent } from '#core/plan/event'
import { parseEvent } from '#core/plan/event'
import type { Plan, Stage } from '#core/plan/plan'
import type { AlarmHappening, Happening, NoticeHappening } from '#core/watch/happening'
import { type StoveState, stageOutcomes, startStove, stepStove } from '#core/watch/stove'
import type { PotSetup, StoveInput } from '#core/watch/stove-input'
import type { WatchSettings } from '#core/watch/watch-settings'

export const DAY_MS = Date.UTC(2026, 2, 12)

/** `13:05` or `13:05:10` on the day of the tests → Unix ms, UTC. */
export function at(clock: string): number {
  const [h = 0, m = 0, s = 0] = clock.split(':').map(Number)
  return DAY_MS + ((h * 60 + m) * 60 + s) * 1000
}

type HoldInit = { windowC: readonly [number, number] } & Partial<Extract<Stage, { kind: 'hold' }>>

/** A hold with usual values for what a test does not care about. */
export const hold = (stage: HoldInit): Stage => ({
  kind: 'hold',
  id: 'dye',
  title: 'Dye',
  additives: [],
  holdMin: 60,
  goods: true,
  ...stage,
})

export const plan = (...stages: readonly Stage[]): Plan => ({ title: 'Test', stages })

const SETUP: PotSetup = { title: 'Heron', vessel: null, lagS: null }

/** A dye day on a stove: tell it what happens, in time order; it ticks each second in between. */
export class WatchDay {
  state: StoveState
  readonly happenings: Happening[] = []
  #tickMs: number | null = null

  constructor(settings: WatchSettings = {}) {
    this.state = startStove(settings)
  }

  feed(input: StoveInput): this {
    this.tickUntil(input.atMs)
    return this.#step(input)
  }

  /** One tick each second, up to just before a moment. */
  tickUntil(atMs: number): this {
    while (this.#tickMs !== null && this.#tickMs < atMs) {
      this.#step({ kind: 'tick', atMs: this.#tickMs })
      this.#tickMs += 1000
    }
    this.#tickMs ??= atMs
    return this
  }

  pot(potId: string, clock: string, setup: Partial<PotSetup> = {}): this {
    const atMs = at(clock)
    this.feed({ kind: 'pot', atMs, potId, pot: { ...SETUP, title: potId, ...setup } })
    return this.feed({ kind: 'assign', atMs, potId, probe: potId, use: 'on' })
  }

  batch(potId: string, clock: string, batchPlan: Plan, goodsIn?: boolean): this {
    const goods = goodsIn === undefined ? {} : { goodsIn }
    return this.feed({
      kind: 'batch',
      atMs: at(clock),
      potId,
      batchId: 1,
      plan: batchPlan,
      dryWeightG: null,
      ...goods,
    })
  }

  /** Words of the trace file. */
  note(potId: string, clock: string, words: string): this {
    for (const word of words.split(' '))
      this.feed({ kind: 'event', atMs: at(clock), potId, event: known(word) })
    return this
  }

  read(probe: string, atMs: number, tempC: number): this {
    const reading = { kind: 'temp', probe, atMs, rawC: tempC, tempC, verdict: 'good' } as const
    return this.feed({ kind: 'reading', atMs, reading })
  }

  /** Readings along straight lines through `[clock, °C]`, one every `everyS`; the last point is included. */
  line(probe: string, points: readonly (readonly [string, number])[], everyS = 1): this {
    const knots = points.map(([clock, tempC]) => ({ atMs: at(clock), tempC }))
    const [first, last] = [knots[0]!, knots.at(-1)!]
    for (let atMs = first.atMs; atMs <= last.atMs; atMs += everyS * 1000) {
      const next = Math.max(
        1,
        knots.findIndex((k) => k.atMs >= atMs),
      )
      const [a, b] = [knots[next - 1]!, knots[next]!]
      const part = (atMs - a.atMs) / (b.atMs - a.atMs)
      this.read(probe, atMs, a.tempC + part * (b.tempC - a.tempC))
    }
    return this
  }

  notices(): readonly NoticeHappening[] {
    return this.happenings.filter((h) => h.kind === 'notice')
  }

  alarms(alarm?: string): readonly AlarmHappening[] {
    return this.happenings.filter((h) => h.kind === 'alarm').filter((h) => !alarm || h.alarm === alarm)
  }

  /** `alarm change HH:MM:SS`, one line each: what a test can read at a glance. */
  log(): readonly string[] {
    return this.happenings.map((h) => {
      const clock = new Date(h.atMs).toISOString().slice(11, 19)
      return h.kind === 'notice' ? `${clock} ${h.notice}` : `${clock} ${h.alarm} ${h.change}`
    })
  }

  outcomes(potId: string, clock: string) {
    return stageOutcomes(this.state, potId, at(clock))
  }

  #step(input: StoveInput): this {
    const { state, happenings } = stepStove(this.state, input)
    this.state = state
    this.happenings.push(...happenings)
    return this
  }
}

function known(word: string): BathEvent {
  const parsed = parseEvent(word)
  if (!parsed.ok) throw new Error(parsed.why)
  return parsed.event
}
