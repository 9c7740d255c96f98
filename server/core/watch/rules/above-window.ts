import { pastBound } from '../past-bound.ts'
import { hasWindow } from '../stage-window.ts'
import { type AlarmRule, UNKNOWN } from './alarm-rule.ts'

/** After the window was first reached: the bath is over its top. The top itself is inside. */
export const aboveWindow: AlarmRule = {
  alarm: 'above-window',
  judge(view, { deadbandC }) {
    const { stage, pot, tempC, dial } = view
    if (stage === null || !hasWindow(stage) || pot.notes.atWindowMs === null) return null
    if (tempC === null) return UNKNOWN
    const limitC = stage.windowC[1]
    const past = pastBound(view, limitC, 1)
    if (past !== null)
      return {
        is: 'on',
        limitC,
        ...past,
        ...(dial !== null && dial > 0 ? { reason: 'burner-up' as const } : {}),
      }
    return { is: tempC <= limitC - deadbandC ? 'off' : 'between', limitC }
  },
}
