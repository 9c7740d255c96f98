import { type BeliefState, believe, startBelief } from '#core/measure/believe'
import { type Correction, correctedC } from '#core/measure/correction'
import type { Reading, Sample } from '#core/measure/reading'

/** Judges and corrects samples as they come: what was last seen of each probe, and its dated corrections. */
export class BeliefBook {
  readonly #beliefs = new Map<string, BeliefState>()
  #corrections: ReadonlyMap<string, readonly Correction[]> = new Map()

  /** From now on these hold; readings that were stored keep what was applied to them. */
  useCorrections(byProbe: ReadonlyMap<string, readonly Correction[]>): void {
    this.#corrections = byProbe
  }

  correctionsOf(probe: string): readonly Correction[] {
    return this.#corrections.get(probe) ?? []
  }

  judge(sample: Sample): Reading {
    const before = this.#beliefs.get(sample.probe) ?? startBelief()
    const corrections = this.#corrections.get(sample.probe)
    const correct = corrections === undefined ? asItIs : byDate(corrections)
    const { state, reading } = believe(before, sample, correct)
    this.#beliefs.set(sample.probe, state)
    return reading
  }

  /** Takes up where the record ends, so that the first value after a restart is not judged without neighbours. */
  resume(newest: readonly Reading[]): void {
    for (const r of newest)
      this.judge(r.kind === 'fault' ? r : { kind: 'temp', probe: r.probe, atMs: r.atMs, rawC: r.rawC })
  }
}

const asItIs = (rawC: number): number => rawC

const byDate =
  (corrections: readonly Correction[]) =>
  (rawC: number, atMs: number): number =>
    correctedC(corrections, rawC, atMs)
