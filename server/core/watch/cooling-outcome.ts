import type { CoolingFit } from '../bath/cooling.ts'
import { coolingRateCPerS } from '../bath/cooling-law.ts'
import { GOODS_FACTOR } from '../bath/goods-factor.ts'
import { lossW } from '../bath/pot-model.ts'
import { curveOf, fitted } from './cooling-track.ts'
import { tunedOnce } from './learned-pot.ts'
import type { PotState } from './pot-state.ts'

/** What a cool-down came to; times Unix ms. */
export interface CoolingOutcome {
  readonly stageId: string
  readonly coolToC: number
  /** Time constant of the fitted curve, minutes; `null` where no curve without heat goes through it. */
  readonly fittedTauMin: number | null
  readonly surroundingsC: number | null
  readonly reachedMs: number | null
  /** How many times as fast as this pot should, by what was learned of it, or else by the handbook. */
  readonly timesAsFast: number | null
}

/**
 * The loss found over the learned one half-way down, where the pot has been learned; else over the handbook's. A lid
 * that nobody noted is taken for on, as it usually is.
 */
function timesAsFast({ setup, lid, goods }: PotState, fit: CoolingFit): number {
  const { belief } = setup
  if (belief === undefined || belief.traces === 0) return fit.lossRatio
  const pot = tunedOnce(belief)
  const middleC = (fit.fromC + fit.toC) / 2
  const capacityJPerC = pot.capacityJPerC * (goods.kind === 'in' ? GOODS_FACTOR : 1)
  const lostW = -coolingRateCPerS(fit.parameters, middleC) * capacityJPerC
  return lostW / lossW(pot, lid ?? 'on', fit.parameters.roomC, middleC)
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
        timesAsFast: told === null ? null : timesAsFast(pot, told),
      },
    ]
  })
}
