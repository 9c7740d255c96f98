import type { PotView } from '../pot-view.ts'
import { type AlarmRule, BETWEEN, OFF, UNKNOWN } from './alarm-rule.ts'
import { isFalling, slopeRise } from './rising.ts'

const RISE_C = 3
const SPAN_MS = 10 * 60_000
/** A burner that was noted off goes on giving the heat stored in it for this long. */
const COAST_MS = 15 * 60_000
/** A heavy plate under a small pot carries on so far (trade notes' story 9, calculated there), °C. */
const COAST_C = 6.4

/** No heat is planned in this pot, and it rises 3 °C within ten minutes, as a slope and not in one step. */
export const unplannedHeating: AlarmRule = {
  alarm: 'unplanned-heating',
  judge(view) {
    if (isHeatPlanned(view)) return null
    if (view.tempC === null) return UNKNOWN
    const rise = slopeRise(view, Math.max(view.atMs - SPAN_MS, unplannedSinceMs(view)))
    if (rise !== null && rise.riseC >= RISE_C + coastC(view))
      return { is: 'on', limitC: null, sinceMs: rise.sinceMs, isSure: true, reason: 'heat-on' }
    return isFalling(view) ? OFF : BETWEEN
  },
}

/** A soak is planned cold. Without a bath that is watched, a burner noted on is plan enough. */
function isHeatPlanned({ stage, dial, pot }: PotView): boolean {
  switch (stage?.kind) {
    case 'hold':
    case 'keep-warm':
    case 'cool': // `not-cooling` sees to it
      return true
    case 'soak':
      return false
    case 'rest':
      return dial !== null && dial > 0
    case undefined:
      return (dial !== null && dial > 0) || isBeforeFirstStage(pot)
    default:
      return stage satisfies never
  }
}

/** A batch is at hand and none of its stages has been noted yet: somebody is getting the bath ready. */
const isBeforeFirstStage = ({ plan, ended }: PotView['pot']): boolean => plan !== null && ended.length === 0

/** What rose before this stage began, or before the last one ended, was planned then. */
const unplannedSinceMs = ({ run, pot }: PotView): number =>
  run?.startedMs ?? pot.ended.at(-1)?.endedMs ?? -Infinity

const coastC = ({ pot: { dial }, atMs }: PotView): number =>
  dial?.dial === 0 && atMs - dial.notedMs < COAST_MS ? COAST_C : 0
