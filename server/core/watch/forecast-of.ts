import { GOODS_FACTOR } from '../bath/goods-factor.ts'
import { type Goal, type PotForecast, forecastPot, guessOf } from '../bath/pot-forecast.ts'
import type { Stage } from '../plan/plan.ts'
import { curveOf } from './cooling-track.ts'
import type { PotView } from './pot-view.ts'
import { hasWindow } from './stage-window.ts'

/**
 * What comes if nobody touches the pot: from the running cool-down's own curve, else from what is known of
 * the pot. `goal`: what the stage is for unless another is asked for. `null` outside of a bath's stage and while nobody sees the bath.
 */
export function forecastOf(view: PotView, goal = goalOf(view.stage)): PotForecast | null {
  const { stage, tempC, pot, atMs, run, dial, probe } = view
  if (stage === null || stage.kind === 'rest' || tempC === null) return null
  const rateCPerMin = view.rateCPerMin ?? probe?.estimate?.x.rateCPerMin ?? 0
  const forecast = forecastPot({
    atMs,
    belief: pot.setup.belief ?? guessOf(pot.setup.vessel),
    bath: { waterC: tempC, rateCPerMin, capacityFactor: pot.goods.kind === 'in' ? GOODS_FACTOR : 1 },
    dial: stage.kind === 'cool' ? 0 : dial,
    lid: pot.lid,
    settledSinceMs: settledSince(view),
    goal,
    cooling: run?.cooling ? curveOf(run.cooling) : null,
  })
  const reachedMs = run?.cooling?.reachedMs ?? null
  const isOwnGoal = stage.kind === 'cool' && goal.kind === 'cool' && goal.coolToC === stage.coolToC
  return reachedMs === null || !isOwnGoal
    ? forecast
    : { ...forecast, reachesCoolToMs: reachedMs, reachesCoolTo90Ms: null }
}

function settledSince({ pot, run }: PotView): number | null {
  if (run?.stage.kind === 'cool') return Math.max(run.startedMs, pot.dial?.notedMs ?? 0, pot.lidMs ?? 0)
  return pot.dial === null ? null : Math.max(pot.dial.notedMs, pot.lidMs ?? 0)
}

function goalOf(stage: Stage | null): Goal {
  if (stage === null) return { kind: 'none' }
  if (stage.kind === 'cool') return { kind: 'cool', coolToC: stage.coolToC }
  if (!hasWindow(stage)) return { kind: 'none' }
  const [lowC, highC] = stage.windowC
  return { kind: 'window', lowC, highC }
}
