import { dialFor } from '../bath/advise.ts'
import { courseC, courseStates } from '../bath/course.ts'
import { startOf } from '../bath/forecast.ts'
import { lossW, type TunedPot } from '../bath/pot-model.ts'
import { learnedPot } from './learned-pot.ts'
import type { PotView } from './pot-view.ts'

/** Somebody needs so long to get to the pot, s. */
const WALK_S = 60
/** The coast is over by then, s. */
const COAST_S = 3600

/**
 * How high the bath comes when somebody walks over now and turns down to the dial that holds `aimC`, °C; `null`:
 * nothing was learned to go by.
 */
export function learnedPeakC(view: PotView, aimC: number): number | null {
  const pot = learnedPot(view)
  if (pot === null) return null
  const toDial = dialFor(pot, lossW(pot, view.pot.lid ?? 'on', pot.model.roomC, aimC))
  return toDial === null ? null : coastPeakC(view, pot, toDial)
}

/** How high the bath comes when somebody walks over now and turns to `toDial`, °C; `null`: the bath is not seen. */
export function coastPeakC(view: PotView, pot: TunedPot, toDial: number): number | null {
  const { dial, tempC, rateCPerMin } = view
  if (dial === null || tempC === null || rateCPerMin === null) return null
  const course = { dial, lid: view.pot.lid ?? 'on', roomC: pot.model.roomC }
  const start = startOf(pot, { waterC: tempC, rateCPerMin }, course)
  const there = courseStates(pot, start, course, { untilS: WALK_S, stepS: WALK_S }).at(-1)!
  return Math.max(...courseC(pot, there, { ...course, dial: toDial }, { untilS: COAST_S, stepS: 60 }))
}
