import { isBeyond } from '../is-beyond.ts'
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
    if (isBeyond(view, limitC, 1))
      return { is: 'on', limitC, ...(dial !== null && dial > 0 ? { reason: 'burner-up' as const } : {}) }
    return { is: tempC <= limitC - deadbandC ? 'off' : 'between', limitC }
  },
}
