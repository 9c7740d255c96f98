import { holdDial } from '#core/bath/advise'
import { learnFrom } from '#core/bath/learn'
import { guessPot } from '#core/bath/pot-belief'
import type { PotReading } from '#core/bath/pot-reading'
import type { PotEvent, PotTrace } from '#core/bath/pot-trace'
import type { Vessel } from '#core/bath/vessel'
import { RichPot, type RichPotSetup } from './rich-pot.ts'
import type { Doing } from './stove-evening.ts'

/** Things done at a rich pot one after the other, from 0 s on: what the probe and the notes say, and what was true. */
export class RichEvening {
  readonly pot: RichPot
  readonly roomC: number
  readonly truth: PotReading[] = []
  readonly #readings: PotReading[] = []
  readonly #events: { atMs: number; event: PotEvent }[] = []
  #atS = 0
  #dial = 0
  #lid: 'on' | 'off' = 'on'

  constructor(setup: RichPotSetup, roomC: number) {
    this.pot = new RichPot({ ...setup, finelyCycled: true, startC: setup.startC ?? roomC })
    this.roomC = roomC
  }

  /** Dials run from 0 to 10; a reading every 4 s. */
  do(doings: readonly Doing[]): void {
    for (const { dial, lid, minutes, untilC, downToC } of doings) {
      if (dial !== undefined) this.#note({ kind: 'dial', dial })
      if (lid !== undefined) this.#note({ kind: 'lid', lid })
      this.#dial = dial ?? this.#dial
      this.#lid = lid ?? this.#lid
      for (let s = 0; s < minutes * 60; s++) {
        const tempC = this.#step()
        if (tempC >= (untilC ?? Number.POSITIVE_INFINITY)) break
        if (tempC <= (downToC ?? Number.NEGATIVE_INFINITY)) break
      }
    }
  }

  get trace(): PotTrace {
    return { readings: [...this.#readings], events: [...this.#events] }
  }

  #note(event: PotEvent) {
    this.#events.push({ atMs: this.#atS * 1000, event })
  }

  #step(): number {
    const moment = this.pot.step(1, this.#dial / 10, this.#lid, this.roomC)
    this.#atS += 1
    const atMs = this.#atS * 1000
    if (this.#atS % 4 === 0) this.#readings.push({ atMs, tempC: moment.readingC })
    if (this.#atS % 12 === 0) this.truth.push({ atMs, tempC: moment.meanC })
    return moment.readingC
  }
}

/** The guided evening with plain water, as `learningEvening` does it at a lab pot. */
export function richLearningEvening(setup: RichPotSetup, vessel: Vessel, roomC: number): RichEvening {
  const evening = new RichEvening(setup, roomC)
  evening.do([
    { dial: 10, lid: 'on', minutes: 90, untilC: 70 },
    { dial: 3.5, minutes: 30, untilC: 82 },
  ])
  const learned = learnFrom(guessPot(vessel), evening.trace).belief
  const nowC = evening.truth.at(-1)!.tempC
  const guess = holdDial(learned, nowC, { lid: 'on', roomC: vessel.surroundingsC ?? roomC })
  evening.do([
    { dial: Math.max(0.5, Math.round(2 * (guess?.value ?? 2)) / 2), lid: 'on', minutes: 40 },
    { dial: 0, minutes: 75 },
    { lid: 'off', minutes: 30 },
  ])
  return evening
}
