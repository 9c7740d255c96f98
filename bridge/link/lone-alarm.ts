import type { Cancel, Clock } from '#core/measure/clock'
import type { Sample } from '#core/measure/reading'
import type { BridgeSettings, ProbeLimit } from '#core/wire/bridge-link'
import { type LoneEffect, type LoneInput, startListening, stepLoneWatch } from './lone-watch.ts'

/** A lamp that the bridge lights by itself. */
export interface LoneLamp {
  /** `level` as in `docs/lamp.md`; 4 asks for everything a lamp has. */
  show(pot: string, level: 1 | 4, text: string): void
  end(): void
}

export interface LoneAlarmParts {
  readonly clock: Clock
  /** One line for whoever sees this computer's screen or log. */
  say(sentence: string): void
  /** A sound, where there is a terminal. */
  bell(): void
  openLamp(settings: NonNullable<BridgeSettings['lamp']>): LoneLamp
}

const TICK_MS = 1000

/** Calls by itself when the server is silent and a bath is over the last ceiling that was told. */
export class LoneAlarm {
  readonly #parts: LoneAlarmParts
  #state
  #lampSettings: BridgeSettings['lamp'] = null
  #lamp: LoneLamp | null = null
  #called: readonly ProbeLimit[] = []
  #cancel: Cancel

  constructor(parts: LoneAlarmParts) {
    this.#parts = parts
    this.#state = startListening(parts.clock.nowMs())
    this.#cancel = parts.clock.after(TICK_MS, () => this.#tick())
  }

  /** The server answered, and its watch goes round. */
  heard(): void {
    this.#take({ kind: 'heard', atMs: this.#parts.clock.nowMs() })
  }

  settings({ limits, lamp }: BridgeSettings): void {
    this.#lampSettings = lamp ?? null
    this.#take({ kind: 'limits', limits: limits ?? [] })
  }

  sample(sample: Sample): void {
    if (sample.kind !== 'temp') return
    this.#take({ kind: 'reading', probe: sample.probe, atMs: sample.atMs, tempC: sample.rawC })
  }

  close(): void {
    this.#cancel()
    this.#endLamp()
  }

  #tick(): void {
    this.#cancel = this.#parts.clock.after(TICK_MS, () => this.#tick())
    this.#take({ kind: 'tick', atMs: this.#parts.clock.nowMs() })
  }

  #take(input: LoneInput): void {
    const step = stepLoneWatch(this.#state, input)
    this.#state = step.state
    for (const effect of step.effects) this.#perform(effect)
  }

  #perform(effect: LoneEffect): void {
    switch (effect.kind) {
      case 'alone':
        this.#parts.bell()
        return this.#parts.say(
          `the server has not answered for ${effect.silentS} s and nobody watches ${effect.titles.join(', ')}: look at the pots`,
        )
      case 'call':
        return this.#call(effect.limit, effect.tempC)
      case 'hush':
        return this.#hush(effect.why)
      default:
        return effect satisfies never
    }
  }

  #call(limit: ProbeLimit, tempC: number): void {
    const text = `${limit.title}: the probe reads ${tempC.toFixed(1)} °C, over the ceiling (${limit.rawC.toFixed(1)} on this probe), and the server is silent. Turn the burner down or off.`
    this.#parts.bell()
    this.#parts.say(text)
    if (this.#lampSettings) this.#lamp ??= this.#parts.openLamp(this.#lampSettings)
    this.#lamp?.show(limit.pot, 4, text)
    if (!this.#called.some((l) => l.pot === limit.pot)) this.#called = [...this.#called, limit]
  }

  /** A server that is back tells the lamps itself how it stands. */
  #hush(why: 'server-back' | 'under-limit'): void {
    if (why === 'server-back') {
      this.#parts.say('the server watches again')
      return this.#endLamp()
    }
    this.#parts.say('no probe reads over a ceiling any more; the server is still silent')
    for (const { pot, title } of this.#called) this.#lamp?.show(pot, 1, `${title} was over its ceiling.`)
    this.#called = []
  }

  #endLamp(): void {
    this.#called = []
    this.#lamp?.end()
    this.#lamp = null
  }
}
