import { reachesC } from '../bath/cooling-arrival.ts'
import type { ForecastLive } from './pot-numbers.ts'
import type { PotView } from './pot-view.ts'
import { minutesUntil } from './rules/heading.ts'
import { type WindowStage, hasWindow } from './stage-window.ts'

/** Farther ahead than this the present course says nothing, minutes. */
const FAR_MIN = 240

/** What comes if nobody does anything; `null` for a stage that goes nowhere or a bath that nobody sees. */
export function forecastOf(view: PotView): ForecastLive | null {
  const { stage, tempC } = view
  if (stage === null || tempC === null) return null
  if (stage.kind === 'cool') return coolForecast(view, stage.coolToC)
  return hasWindow(stage) ? heatForecast(view, stage, tempC) : null
}

const NOTHING: ForecastLive = {
  reachesWindowMs: null,
  leavesWindowMs: null,
  reachesCoolToMs: null,
  reachesCoolTo90Ms: null,
  peakC: null,
}

function coolForecast({ run }: PotView, coolToC: number): ForecastLive {
  const cooling = run?.cooling ?? null
  if (cooling === null) return NOTHING
  if (cooling.reachedMs !== null) return { ...NOTHING, reachesCoolToMs: cooling.reachedMs }
  const arrival = cooling.fit === null ? null : reachesC(cooling.fit, coolToC)
  if (arrival === null) return NOTHING
  return {
    ...NOTHING,
    reachesCoolToMs: Math.round(arrival.atMs),
    reachesCoolTo90Ms: [Math.round(arrival.early90Ms), Math.round(arrival.late90Ms)],
  }
}

function heatForecast(view: PotView, { windowC: [lowC, highC] }: WindowStage, tempC: number): ForecastLive {
  const inMin = (limitC: number) => {
    const min = minutesUntil(view, limitC, FAR_MIN)
    return min === null ? null : Math.round(view.atMs + min * 60_000)
  }
  if (tempC < lowC) return { ...NOTHING, reachesWindowMs: inMin(lowC) }
  return { ...NOTHING, reachesWindowMs: view.pot.notes.atWindowMs, leavesWindowMs: inMin(highC) }
}
