import { quadratic } from './linear.ts'
import { NINETY } from './forecast.ts'
import type { PotBelief } from './pot-belief.ts'
import { type Lid, lossW, potModel, powerW, tuned, type TunedPot } from './pot-model.ts'

/** A number with the range that holds the truth in nine cases of ten. */
export interface Ranged {
  readonly value: number
  readonly low90: number
  readonly high90: number
}

/** Where the pot stands for a piece of advice. */
export interface Standing {
  readonly lid: Lid
  readonly roomC: number
}

/** The dial that holds `targetC`; `null` when the burner can't, or when the room holds it by itself. */
export function holdDial(belief: PotBelief, targetC: number, standing: Standing): Ranged | null {
  const model = potModel(belief.vessel)
  const dialOf = (parameters: readonly number[]) => {
    const pot = tuned(model, parameters)
    return dialFor(pot, lossW(pot, standing.lid, standing.roomC, targetC))
  }
  const dial = dialOf(belief.mean)
  if (dial === null) return null
  // In ln dial: the range of a low dial must not reach below 0.
  const spread = spreadOf(belief, (parameters) => Math.log(dialOf(parameters) ?? model.dialMax))
  const half = NINETY * Math.hypot(spread, ROOM_SHARE)
  return {
    value: dial,
    low90: dial * Math.exp(-half),
    high90: Math.min(model.dialMax, dial * Math.exp(half)),
  }
}

/** What an unknown draught or room does to the loss, as a share of the dial (one standard deviation; judged). */
const ROOM_SHARE = 0.015

/** The dial whose heat is `neededW`; `null` below 0 and past the top. The power rises with the dial. */
export function dialFor(pot: TunedPot, neededW: number): number | null {
  const { dialMax } = pot.model
  if (!(neededW > 0) || powerW(pot, dialMax) < neededW) return null
  let low = 0
  let high = dialMax
  for (let i = 0; i < 40; i++) {
    const middle = (low + high) / 2
    if (powerW(pot, middle) < neededW) low = middle
    else high = middle
  }
  return (low + high) / 2
}

/** Where the bath settles at a dial, °C, at most at the boiling point. */
export function steadyC(belief: PotBelief, dial: number, standing: Standing): Ranged {
  const model = potModel(belief.vessel)
  const settled = (parameters: readonly number[]) => {
    const pot = tuned(model, parameters)
    return tempLosing(pot, powerW(pot, dial), standing)
  }
  const value = settled(belief.mean)
  const half = NINETY * Math.hypot(spreadOf(belief, settled), ROOM_SHARE * (value - standing.roomC))
  return {
    value: Math.min(model.boilingC, value),
    low90: Math.min(model.boilingC - BOILING_SPAN_C, value - half),
    high90: Math.min(model.boilingC, value + half),
  }
}

/** Weather moves the boiling point by about ±0.8 °C, and just under it a pot without a lid steams all its heat away. */
const BOILING_SPAN_C = 1.3

/** Temperature at which the pot loses `heatW`, °C; beyond the boiling point as if the water did not boil. */
function tempLosing(pot: TunedPot, heatW: number, { lid, roomC }: Standing): number {
  let low = roomC
  let high = roomC + 400
  for (let i = 0; i < 40; i++) {
    const middle = (low + high) / 2
    if (lossW(pot, lid, roomC, middle) < heatW) low = middle
    else high = middle
  }
  return (low + high) / 2
}

/** Standard deviation of what follows from the parameters, by its slopes. */
export function spreadOf(belief: PotBelief, of: (parameters: readonly number[]) => number): number {
  const slopes = belief.mean.map((_, i) => {
    const moved = (by: number) => of(belief.mean.map((value, k) => (k === i ? value + by : value)))
    return (moved(0.05) - moved(-0.05)) / 0.1
  })
  return Math.sqrt(Math.max(0, quadratic(belief.covariance, slopes)))
}

/** The highest dial at which the bath comes up by at most `maxCPerMin`, seen where it is fastest: from `fromC`. */
export function heatDial(
  belief: PotBelief,
  fromC: number,
  standing: Standing,
  maxCPerMin = Number.POSITIVE_INFINITY,
): number {
  const pot = tuned(potModel(belief.vessel), belief.mean)
  const mostW = (maxCPerMin / 60) * pot.capacityJPerC + lossW(pot, standing.lid, standing.roomC, fromC)
  return dialFor(pot, mostW) ?? pot.model.dialMax
}
