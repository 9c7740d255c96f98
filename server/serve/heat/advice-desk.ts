import type { PotAdvice } from '#core/watch/dial-advice'
import { advisePot } from '#core/watch/pot-advice'
import type { PotNumbers } from '#core/wire/live'
import type { Studio } from '../studio.ts'
import { runningStage } from '../watch/pots-on-stove.ts'

interface Kept {
  readonly key: string
  /** Since when dial, lid and stage stand as they do, as far as was seen. */
  readonly sinceMs: number
  readonly madeMs: number
  readonly advice: PotAdvice | null
}

/** Advice changes slowly and costs milliseconds: it is worked out anew when something is turned, and this often, ms. */
const EVERY_MS = 10_000

/** How to set the dial of each pot with a stage running, for the page. */
export class AdviceDesk {
  readonly #studio: Pick<Studio, 'clock' | 'stove' | 'burners'>
  readonly #kept = new Map<string, Kept>()

  constructor(studio: Pick<Studio, 'clock' | 'stove' | 'burners'>) {
    this.#studio = studio
  }

  /** The numbers with the advice that belongs to them. */
  on<N extends PotNumbers>(numbers: N): N {
    return { ...numbers, advice: this.#advice(numbers) }
  }

  #advice(numbers: PotNumbers): PotAdvice | null {
    const { potId, dial, lid, tempC } = numbers
    const found = this.#studio.stove.find(potId)
    const batch = found?.batch ?? null
    const run = batch === null ? null : runningStage(batch, potId)
    const stage = batch?.plan.stages.find((s) => s.id === run?.stageId) ?? null
    const belief = this.#studio.burners.beliefOf(potId)
    if (stage === null || belief === null || tempC === null) return null
    const nowMs = this.#studio.clock.nowMs()
    const key = JSON.stringify([run?.id, dial, lid])
    const kept = this.#kept.get(potId)
    if (kept?.key === key && nowMs - kept.madeMs < EVERY_MS) return kept.advice
    const sinceMs = kept?.key === key ? kept.sinceMs : nowMs
    const advice = advisePot({
      atMs: nowMs,
      belief,
      isGuess: this.#studio.burners.isGuess(potId),
      stage,
      tempC,
      rateCPerMin: numbers.rateCPerMin ?? 0,
      dial,
      lid,
      settledSinceMs: sinceMs,
      coolEnoughMs: numbers.forecast?.reachesCoolToMs ?? null,
    })
    this.#kept.set(potId, { key, sinceMs, madeMs: nowMs, advice })
    return advice
  }
}
