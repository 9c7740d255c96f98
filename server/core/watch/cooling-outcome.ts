import { curveOf, fitted } from './cooling-track.ts'
import type { PotState } from './pot-state.ts'

/** What a cool-down came to; times Unix ms. */
export interface CoolingOutcome {
  readonly stageId: string
  readonly coolToC: number
  /** Time constant of the fitted curve, minutes; `null` where no curve without heat goes through it. */
  readonly fittedTauMin: number | null
  readonly surroundingsC: number | null
  readonly reachedMs: number | null
  /** How many times as fast as this pot should. */
  readonly timesAsFast: number | null
}

/** The cool-downs of the batch on a pot, in the order in which they began; fitted up to a moment. */
export function coolingOutcomesOf(pot: PotState, atMs: number): readonly CoolingOutcome[] {
  const runs = [...pot.ended, ...(pot.run === null ? [] : [pot.run])]
  return runs.flatMap((run) => {
    if (run.cooling === null || run.stage.kind !== 'cool') return []
    const track = run.endedMs === null ? fitted(run.cooling, atMs, pot) : run.cooling
    const fit = curveOf(track)
    const told = fit !== null && fit.verdict !== 'needs-heat' && Number.isFinite(fit.tauMin) ? fit : null
    return [
      {
        stageId: run.stage.id,
        coolToC: run.stage.coolToC,
        fittedTauMin: told?.tauMin ?? null,
        surroundingsC: told?.surroundingsC ?? null,
        reachedMs: track.reachedMs,
        timesAsFast: told?.lossRatio ?? null,
      },
    ]
  })
}
