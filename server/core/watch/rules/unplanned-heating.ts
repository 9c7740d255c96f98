import type { PotView } from '../pot-view.ts'
import { type AlarmRule, BETWEEN, OFF, UNKNOWN } from './alarm-rule.ts'
import { isFalling, slopeRise } from './rising.ts'

const RISE_C = 3
const SPAN_MS = 10 * 60_000

/** No heat is planned in this pot, and it rises 3 °C within ten minutes, as a slope and not in one step. */
export const unplannedHeating: AlarmRule = {
  alarm: 'unplanned-heating',
  judge(view) {
    if (isHeatPlanned(view)) return null
    if (view.tempC === null) return UNKNOWN
    const rise = slopeRise(view, SPAN_MS)
    if (rise !== null && rise.riseC >= RISE_C)
      return { is: 'on', limitC: null, sinceMs: rise.sinceMs, isSure: true, reason: 'heat-on' }
    return isFalling(view) ? OFF : BETWEEN
  },
}

/** A soak is planned cold. Without a bath that is watched, a burner noted on is plan enough. */
function isHeatPlanned({ stage, dial }: PotView): boolean {
  switch (stage?.kind) {
    case 'hold':
    case 'keep-warm':
    case 'cool': // `not-cooling` sees to it
      return true
    case 'soak':
      return false
    case 'rest':
    case undefined:
      return dial !== null && dial > 0
    default:
      return stage satisfies never
  }
}
