import { AT, type PotBelief } from '../bath/pot-belief.ts'
import { dialPlace, lossW, potModel, powerW, tuned, type TunedPot } from '../bath/pot-model.ts'
import { courseStates } from '../bath/course.ts'
import { GOODS_FACTOR } from '../bath/goods-factor.ts'
import { startOf } from '../bath/forecast.ts'
import type { PotView } from './pot-view.ts'

/** Spread of a power's logarithm up to which rules go by it: a guess has 0.35 and more (judged). */
const KNOWN = 0.2
/** A rate this far from what the noted dial gives means that the note is wrong, °C/min. */
const UNLIKE_C_PER_MIN = 0.3

/** A belief stays one object for as long as it is believed, so what is worked out of it is worked out once. */
const worked = new WeakMap<PotBelief, TunedPot>()

export function tunedOnce(belief: PotBelief): TunedPot {
  const known = worked.get(belief)
  if (known !== undefined) return known
  const pot = tuned(potModel(belief.vessel), belief.mean)
  worked.set(belief, pot)
  return pot
}

/** A pot that rules can go by: learned from traces, with this dial's power among what was learned. */
export function learnedPot({ pot, dial }: PotView): TunedPot | null {
  const { belief } = pot.setup
  if (belief === undefined || belief.traces === 0 || dial === null) return null
  return isPowerKnown(belief, dial) ? tunedOnce(belief) : null
}

/** Off is known of every burner. */
export function isPowerKnown(belief: PotBelief, dial: number): boolean {
  const share = Math.min(1, dial / belief.vessel.burner.dialMax)
  if (!(share > 0)) return true
  const { left, along } = dialPlace(share)
  const at = AT.power + left
  const of = (row: number, column: number) => belief.covariance[row]?.[column] ?? Infinity
  const variance =
    (1 - along) ** 2 * of(at, at) + 2 * along * (1 - along) * of(at, at + 1) + along ** 2 * of(at + 1, at + 1)
  return variance < KNOWN ** 2
}

/**
 * Minutes until the bath passes a limit above it, as the learned pot has it with dial and lid as noted; `null`: not
 * within `withinMin`. `undefined`: nothing learned to go by, or the bath does not behave as noted.
 */
export function learnedMinutes(view: PotView, limitC: number, withinMin: number): number | null | undefined {
  const pot = learnedPot(view)
  const { tempC, rateCPerMin, dial } = view
  if (pot === null || tempC === null || rateCPerMin === null || dial === null) return undefined
  const lid = view.pot.lid ?? 'on'
  const { roomC } = pot.model
  if (isSettled(view, pot)) {
    const expected = (60 * (powerW(pot, dial) - lossW(pot, lid, roomC, tempC))) / pot.capacityJPerC
    if (Math.abs(expected - rateCPerMin) > UNLIKE_C_PER_MIN) return undefined
  }
  const course = { dial, lid, roomC }
  const start = startOf(pot, { waterC: tempC, rateCPerMin }, course)
  const path = courseStates(pot, start, course, { untilS: withinMin * 60, stepS: STEP_S })
  const past = path.findIndex((now) => now.waterC > limitC)
  return past < 0 ? null : (past * STEP_S) / 60
}

const STEP_S = 30

/** Dial and lid have stood for so long that the element is as warm as it gets. */
function isSettled({ pot, atMs }: PotView, { elementLagS }: TunedPot): boolean {
  const sinceMs = Math.max(pot.dial?.notedMs ?? 0, pot.lidMs ?? 0)
  return atMs - sinceMs > Math.max(300, 3 * elementLagS) * 1000
}

/** How fast a pot whose losses were learned falls with its lid on and no heat, °C/min; `null`: not learned. */
export function learnedFallCPerMin({ pot }: PotView, tempC: number): number | null {
  const { belief } = pot.setup
  if (belief === undefined || belief.traces === 0) return null
  if ((belief.covariance[AT.dry]?.[AT.dry] ?? Infinity) > KNOWN ** 2) return null
  const learned = tunedOnce(belief)
  const goods = pot.goods.kind === 'out' ? 1 : GOODS_FACTOR
  return (60 * lossW(learned, 'on', learned.model.roomC, tempC)) / (learned.capacityJPerC * goods)
}
