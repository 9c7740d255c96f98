import { type AlarmRule, BETWEEN, OFF, UNKNOWN } from './alarm-rule.ts'
import { minutesForeseen } from './heading.ts'

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
    if (view.tempC === null || view.rateCPerMin === null) return UNKNOWN
    const limitC = stage.windowC[1]
    if (view.tempC > limitC) return OFF
    const settling = view.atMs - beganMs < SETTLING_MS
    const inMin = minutesForeseen(view, limitC, settling ? AHEAD_SETTLING_MIN : AHEAD_MIN)
    if (inMin !== null) return { is: 'on', limitC, expectedMs: Math.round(view.atMs + inMin * 60_000) }
    return minutesForeseen(view, limitC, CLEAR_MIN) === null ? OFF : BETWEEN
  },
}
