import { type AlarmRule, BETWEEN, OFF, UNKNOWN } from './alarm-rule.ts'
import { canHead, heading, wayForeseen } from './heading.ts'

const AHEAD_MIN = 10
/** A bath that has just come in still settles; there it must be about to leave. */
const SETTLING_MS = 10 * 60_000
const AHEAD_SETTLING_MIN = 5
/** The course has changed when it leads out no sooner than this. */
const CLEAR_MIN = 14

/** In a hold: the bath will leave by the top within ten minutes at its present course. */
export const headingAboveWindow: AlarmRule = {
  alarm: 'heading-above-window',
  judge(view) {
    const { stage, run } = view
    const beganMs = run?.trace.clock?.beganMs ?? null
    if (stage?.kind !== 'hold' || beganMs === null) return null
    const limitC = stage.windowC[1]
    const way = wayForeseen(view, limitC)
    if (way === null || view.tempC === null) return UNKNOWN
    if (way.leastMin > CLEAR_MIN || !canHead(view, limitC)) return OFF
    const settling = view.atMs - beganMs < SETTLING_MS
    if (!way.rises || way.min > (settling ? AHEAD_SETTLING_MIN : AHEAD_MIN)) return BETWEEN
    return heading(view, limitC, way.min)
  },
}
