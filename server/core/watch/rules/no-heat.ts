import { vesselPhysics } from '../../bath/vessel-physics.ts'
import type { PotState } from '../pot-state.ts'
import { rateOver, smoothPart } from '../course.ts'
import { steepestFallC } from './rising.ts'
import { hasWindow } from '../stage-window.ts'
import { type AlarmRule, OFF, UNKNOWN } from './alarm-rule.ts'

/** Heat must show within six minutes of the dial; judged a little before, so that it is told by then. */
const WAIT_MS = 345_000
/** Under these nothing has come yet: °C in all, and °C/min over the last three minutes. */
const LEAST_RISE_C = 0.3
const LEAST_RATE_C_PER_MIN = 0.05
/** A dial lower than this share of its range may only be meant to keep the bath warm. */
const LEAST_DIAL_01 = 0.3
const USUAL_DIAL_MAX = 10
/** A bath that fell this much within a minute and a half had something cold put in; it gets its time anew, °C. */
const COLD_STEP_C = 1

/** A dial is noted on, the bath is to heat up, and the rise that must come does not. */
export const noHeat: AlarmRule = {
  alarm: 'no-heat',
  judge(view) {
    const { stage, tempC, pot, atMs } = view
    if (stage === null || !hasWindow(stage) || pot.dial === null) return null
    if (tempC === null) return UNKNOWN
    const { onSinceMs } = pot.dial
    if (onSinceMs === null || tempC >= stage.windowC[0] - 1 || !shouldRise(pot, tempC)) return OFF
    if (hasRisen(view) || steepestFallC(view.course, atMs - WAIT_MS) >= COLD_STEP_C) return OFF
    const waitedMs = atMs - Math.max(onSinceMs, view.run?.startedMs ?? onSinceMs)
    if (waitedMs < WAIT_MS) return OFF
    return { is: 'on', limitC: null, sinceMs: atMs - WAIT_MS, reason: 'wrong-burner' }
  },
}

/** At this dial a bath as warm as this must rise by 0.1 °C/min or more, as far as the pot is known. */
function shouldRise(pot: PotState, tempC: number): boolean {
  const { vessel } = pot.setup
  const dial01 = (pot.dial?.dial ?? 0) / (vessel?.burner.dialMax ?? USUAL_DIAL_MAX)
  if (dial01 < LEAST_DIAL_01) return false
  if (vessel === null) return true
  const { fullW, capacityJPerC, topM2, roomC } = vesselPhysics(vessel)
  // Half the nameplate's share against an open surface's loss, 11 kW/m² near the boil (handbook tables).
  const lossW = topM2 * 11_000 * Math.max(0, (tempC - roomC) / (100 - roomC)) ** 2.5
  return ((0.5 * fullW * dial01 - lossW) / capacityJPerC) * 60 > 0.1
}

export function hasRisen(view: {
  atMs: number
  tempC: number | null
  course: Parameters<typeof rateOver>[0]
}): boolean {
  const rate = rateOver(view.course, view.atMs, 3 * 60_000)
  if (rate === null || rate > LEAST_RATE_C_PER_MIN) return true
  const lowestC = Math.min(...smoothPart(view.course, view.atMs - WAIT_MS).map((p) => p.tempC))
  return view.tempC !== null && view.tempC - lowestC >= LEAST_RISE_C && rate > 0
}
