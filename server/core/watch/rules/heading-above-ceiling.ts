import { ceilingOf, hasWindow } from '../stage-window.ts'
import { type AlarmRule, BETWEEN, OFF, UNKNOWN } from './alarm-rule.ts'
import { canHead, heading, soonestWay } from './heading.ts'

const AHEAD_MIN = 5
const CLEAR_MIN = 7

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
    const way = soonestWay(view, limitC)
    if (tempC === null || way === null) return UNKNOWN
    if (way.leastMin > CLEAR_MIN || !canHead(view, limitC)) return OFF
    if (!way.rises || way.min > AHEAD_MIN) return BETWEEN
    return heading(view, limitC, way.min)
  },
}
