import type { PotTrace } from '#core/bath/pot-trace'
import type { Vessel } from '#core/bath/vessel'
import type { Stage } from '#core/plan/plan'
import type { ToldForecast } from '../../store/heat.ts'

/** One fill of a pot from cold to cool: what the learning looks at. Plain data, so that it can go to a worker. */
export interface BathDay {
  /** With the litres of that day. */
  readonly vessel: Vessel
  /** Begins with dial, lid and goods as they stood. */
  readonly trace: PotTrace
  readonly stages: readonly DayStage[]
  /** The forecasts that were given live; none for a fill that nobody watched live. */
  readonly told: readonly ToldForecast[]
}

export interface DayStage {
  readonly stage: Stage
  readonly startedMs: number
  readonly endedMs: number
}
