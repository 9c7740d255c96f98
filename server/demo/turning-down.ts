import type { PotBelief } from '#core/bath/pot-belief'
import type { HoldStage } from '#core/plan/plan'
import { advisePot } from '#core/watch/pot-advice'

/** When a dyer turns down while a bath comes up, and to which mark. */
export interface TurningDown {
  readonly atC: number
  readonly toDial: number
}

/** A bath as it comes up. */
export interface ComingUp {
  readonly dial: number
  readonly tempC: number
  readonly rateCPerMin: number
}

/** As Holdfast advises somebody whose burner it has learned; `meant`: what stands where it says no more. */
export function advisedTurningDown(
  belief: PotBelief,
  stage: HoldStage,
  now: ComingUp,
  meant: TurningDown,
): TurningDown {
  const unknown = { settledSinceMs: null, lid: 'on', atMs: 0, isGuess: false } as const
  const dial = advisePot({ ...unknown, ...now, belief, stage })?.dial
  return dial?.kind === 'heat-up' ? { atC: dial.turnDownAtC, toDial: dial.holdDial } : meant
}
