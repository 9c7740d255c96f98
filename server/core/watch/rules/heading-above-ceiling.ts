import type { PotView } from '../pot-view.ts'
import { ceilingOf, hasWindow } from '../stage-window.ts'
import { type AlarmRule, BETWEEN, OFF, UNKNOWN } from './alarm-rule.ts'
import { soonestMinutes } from './heading.ts'

const AHEAD_MIN = 5
const CLEAR_MIN = 7
/** Time to walk to the pot and turn the dial before "turn it down" counts as unheeded. */
const HEED_MS = 2 * 60_000

/**
 * The bath will pass its ceiling within five minutes. While it still heats up that is how every good day
 * looks, so there it waits until "turn down now" was said and the bath rises on as before.
 */
export const headingAboveCeiling: AlarmRule = {
  alarm: 'heading-above-ceiling',
  judge(view) {
    const { stage, tempC } = view
    const limitC = stage === null || !hasWindow(stage) ? null : ceilingOf(stage)
    if (limitC === null) return null
    if (tempC === null || view.rateCPerMin === null) return UNKNOWN
    if (tempC > limitC || !mayTell(view, view.rateCPerMin)) return OFF
    const inMin = soonestMinutes(view, limitC, AHEAD_MIN)
    if (inMin !== null) return { is: 'on', limitC, expectedMs: Math.round(view.atMs + inMin * 60_000) }
    return soonestMinutes(view, limitC, CLEAR_MIN) === null ? OFF : BETWEEN
  },
}

function mayTell({ pot, run, atMs }: PotView, rateCPerMin: number): boolean {
  const inHold = (run?.trace.clock?.beganMs ?? null) !== null
  const { turnDown, atWindowMs } = pot.notes
  if (inHold || (run?.stage.kind === 'keep-warm' && atWindowMs !== null)) return true
  return turnDown !== null && atMs - turnDown.atMs >= HEED_MS && rateCPerMin >= 0.7 * turnDown.rateCPerMin
}
