import { lossW, powerW } from '../../bath/pot-model.ts'
import { vesselPhysics } from '../../bath/vessel-physics.ts'
import type { PotState } from '../pot-state.ts'
import { rateOver, smoothPart } from '../course.ts'
import { learnedPot } from '../learned-pot.ts'
import type { PotView } from '../pot-view.ts'
import { rateErrorCPerMin, steepestFallC } from './rising.ts'
import { hasWindow } from '../stage-window.ts'
import { type AlarmRule, BETWEEN, OFF, UNKNOWN } from './alarm-rule.ts'

/** Heat must show within six minutes of the dial; judged a little before, so that it is told by then. */
const WAIT_MS = 345_000
/** Under these nothing has come yet: °C in all, and °C/min over the last minutes. */
const LEAST_RISE_C = 0.3
const LEAST_RATE_C_PER_MIN = 0.05
const RATE_MS = 3 * 60_000
/** So many standard errors a rate must lie above that. */
const SURE = 2.5
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
    const fromMs = expectedSince(view)
    if (fromMs === null || tempC >= stage.windowC[0] - 1 || !shouldRise(view, tempC)) return OFF
    const rate = rateOver(view.course, atMs, RATE_MS)
    if (rate === null) return BETWEEN
    if (hasRisen(view, rate) || steepestFallC(view.course, atMs - WAIT_MS) >= COLD_STEP_C) return OFF
    if (atMs - fromMs < WAIT_MS) return OFF
    return { is: 'on', limitC: null, sinceMs: atMs - WAIT_MS, reason: 'wrong-burner' }
  },
}

/**
 * Since when a rise is to be expected: since the dial is on, in this stage. Once the window was reached the dial is
 * meant to hold, and a bath that falls out is `below-window`'s; then only a dial turned up since promises a rise.
 */
function expectedSince({ pot, run }: PotView): number | null {
  const { onSinceMs = null, raisedMs = null } = pot.dial ?? {}
  const { atWindowMs } = pot.notes
  if (atWindowMs !== null) return raisedMs !== null && raisedMs > atWindowMs ? raisedMs : null
  return onSinceMs === null ? null : Math.max(onSinceMs, run?.startedMs ?? onSinceMs)
}

/** A rise that can't be missed within the wait, °C/min. */
const LEAST_SHOULD_C_PER_MIN = 0.1

/** At this dial a bath as warm as this must rise, with half of the heat that is known of the pot. */
function shouldRise(view: PotView, tempC: number): boolean {
  const learned = learnedPot(view)
  if (learned === null) return shouldByNameplate(view.pot, tempC)
  const lid = view.pot.lid ?? 'on'
  const gainedW = 0.5 * powerW(learned, view.dial ?? 0) - lossW(learned, lid, learned.model.roomC, tempC)
  return (60 * gainedW) / learned.capacityJPerC > LEAST_SHOULD_C_PER_MIN
}

function shouldByNameplate(pot: PotState, tempC: number): boolean {
  const { vessel } = pot.setup
  const dial01 = (pot.dial?.dial ?? 0) / (vessel?.burner.dialMax ?? USUAL_DIAL_MAX)
  if (dial01 < LEAST_DIAL_01) return false
  if (vessel === null) return true
  const { fullW, capacityJPerC, topM2, roomC } = vesselPhysics(vessel)
  // Half the nameplate's share against an open surface's loss, 11 kW/m² near the boil (handbook tables).
  const lostW = topM2 * 11_000 * Math.max(0, (tempC - roomC) / (100 - roomC)) ** 2.5
  return ((0.5 * fullW * dial01 - lostW) / capacityJPerC) * 60 > LEAST_SHOULD_C_PER_MIN
}

/** Clearly more than nothing, for a probe that trembles and answers as seldom as this one. */
function hasRisen({ course, tempC, atMs, probe }: PotView, rate: number): boolean {
  if (rate > LEAST_RATE_C_PER_MIN + SURE * rateErrorCPerMin(probe, RATE_MS)) return true
  const lowestC = Math.min(...smoothPart(course, atMs - WAIT_MS).map((p) => p.tempC))
  return tempC !== null && tempC - lowestC >= LEAST_RISE_C && rate > 0
}
