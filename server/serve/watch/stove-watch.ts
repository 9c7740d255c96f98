import type { PotForecast } from '#core/bath/pot-forecast'
import type { StageOutcome } from '#core/plan/outcome'
import type { Happening } from '#core/watch/happening'
import type { LiftTime, Wake } from '#core/watch/lift-time'
import type { PotNumbers } from '#core/wire/live'
import type { CoolingOutcome } from '#core/watch/stove'
import type { StoredBatch } from '../../store/batches.ts'
import type { StoveInput } from '#core/watch/stove-input'

/** The pure watch with its state in it: told one input after the other, in time order. */
export interface StoveWatch {
  step(input: StoveInput): readonly Happening[]
  numbers(potId: string, atMs: number): PotNumbers
  /** What comes if nobody touches the pot; `null` outside of a stage and while nobody sees the bath. */
  forecast(potId: string, atMs: number): PotForecast | null
  /** Whether a bath that cools can be lifted when the alarm clock rings; `null`: none cools, or it is not seen. */
  liftTime(potId: string, atMs: number, wake: Wake): LiftTime | null
  /** What the stages of the batch on this pot have come to, ended ones and the running one. */
  outcomes(potId: string, atMs: number): readonly StageOutcome[]
  /** The cool-downs of the batch on this pot, fitted up to now. */
  coolings(potId: string): readonly CoolingOutcome[]
  /** All that it knows; only the same build of the program can go on from it. */
  kept(): string
}

/** A watch that has seen nothing yet, or one that goes on from what another one kept. */
export type NewStoveWatch = (kept?: string) => StoveWatch

/** What is said of a happening, in the studio's unit and language. */
export interface StoveWords {
  /** `batch`: the one that it belongs to, where that is not in its pot now. */
  alarm(happening: Extract<Happening, { kind: 'alarm' }>, batch?: StoredBatch): string
  notice(happening: Extract<Happening, { kind: 'notice' }>): string
}
