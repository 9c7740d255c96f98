import { pastBound } from '../past-bound.ts'
import { type AlarmRule, UNKNOWN } from './alarm-rule.ts'

/**
 * After the hold began: the bath is under the bottom of its window. Never while it still heats up, and not once
 * the burner is noted off after a full hold.
 */
export const belowWindow: AlarmRule = {
  alarm: 'below-window',
  judge(view, { deadbandC }) {
    const { stage, run, tempC, dial, pot } = view
    const clock = run?.trace.clock
    if (stage?.kind !== 'hold' || !clock || clock.beganMs === null) return null
    if (clock.doneMs !== null && dial === 0) return null
    if (tempC === null) return UNKNOWN
    const limitC = stage.windowC[0]
    const past = pastBound(view, limitC, -1)
    if (past === null) return { is: tempC >= limitC + deadbandC ? 'off' : 'between', limitC }
    if (dial === 0) return { is: 'on', limitC, ...past, reason: 'burner-off' }
    return { is: 'on', limitC, ...past, ...(pot.lid === 'off' ? { reason: 'lid-off' as const } : {}) }
  },
}
