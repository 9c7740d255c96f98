import { type EvaporationTable, lookUp, steeper } from './evaporation-table.ts'
import { calmRoom, evaporationWPerM2 } from './losses.ts'
import { AT, guessPot, type PotBelief } from './pot-belief.ts'
import { type VesselPhysics, vesselPhysics } from './vessel-physics.ts'
import type { Vessel } from './vessel.ts'

/**
 * How a bath without heat cools: dT/dt = −k·(T − Ta)·((T − Ta)/40)^(n−1) − m(T).
 * Newton's law with a bend `n` for natural convection (1: a pure exponential) and evaporation from the surface.
 */
export interface CoolingParameters {
  /** k, 1/s: the dry loss at 40 °C above the room. */
  readonly dryPerS: number
  /** m, °C/s, at whole degrees from 0 to 110. */
  readonly evaporationCPerS: readonly number[]
  /** Ta */
  readonly roomC: number
  /** n */
  readonly bend: number
}

/** What is fitted: ln k, ln m(80 °C), Ta, n, and how much steeper than the table m rises (`steeper`). */
export type CoolingVector = readonly [
  logDry: number,
  logEvaporation: number,
  roomC: number,
  bend: number,
  rise: number,
]

export interface CoolingGuess {
  readonly mean: CoolingVector
  /** Standard deviations. */
  readonly spread: CoolingVector
}

export function coolingParameters(at: readonly number[], table: EvaporationTable): CoolingParameters {
  return {
    dryPerS: Math.exp(at[0]!),
    evaporationCPerS: steeper(table, at[4]!, Math.exp(at[1]!) / table.openWPerM2[80]!),
    roomC: at[2]!,
    bend: at[3]!,
  }
}

export type Lid = 'on' | 'off' | null

/** Rate of a bath without heat, °C/s, ≤ 0 above the room. */
export function coolingRateCPerS(p: CoolingParameters, tempC: number): number {
  const aboveC = tempC - p.roomC
  if (aboveC <= 0) return -p.dryPerS * aboveC
  const dry = p.dryPerS * aboveC * (aboveC / 40) ** (p.bend - 1)
  return -dry - lookUp(p.evaporationCPerS, tempC)
}

/**
 * What to expect before a curve is seen. Sides 9, lid 7, open surface 12 W/(m² K) dry, evaporation after the
 * handbook, a lidded pot 1.6 % of it; real pots differ by ±40 % (calculated, no source).
 */
export function guessCooling(
  vessel: Vessel | null,
  lid: Lid,
  roomC: number | undefined,
  roomSpreadC: number | undefined,
): CoolingGuess {
  const physics = vessel === null ? null : vesselPhysics(vessel)
  const room = roomC ?? vessel?.surroundingsC
  const meanC = room ?? 20
  const evaporates = EVAPORATES[lid ?? 'unknown']
  return {
    mean: [
      // Without a vessel: a time constant of three hours.
      Math.log(physics === null ? 1 / 10_800 : dryPerS(physics, lid)),
      Math.log(openEvaporationCPerS(physics, meanC) * evaporates.share),
      meanC,
      1.06,
      -0.05,
    ],
    spread: [
      physics === null ? 1 : 0.4,
      evaporates.spread + (physics === null ? 0.7 : 0),
      roomSpreadC ?? (room === undefined ? 4 : 1.5),
      0.09,
      RISE_SPREAD,
    ],
  }
}

const RISE_SPREAD = 0.1

/**
 * Evaporation as a share of the open surface's, and the spread of its logarithm. Unknown: a lid is twice as usual as
 * none (common practice, no source).
 */
export const EVAPORATES = {
  off: { share: 0.95, spread: 0.5 },
  on: { share: 0.016, spread: 1.2 },
  unknown: { share: 0.063, spread: 1.9 },
} as const

function dryPerS(physics: VesselPhysics, lid: Lid): number {
  const topWPerM2C = lid === 'off' ? 12 : 7
  return (9 * physics.wallM2 + topWPerM2C * physics.topM2) / physics.capacityJPerC
}

/** °C/s that evaporation from the open pot takes at 80 °C; without a vessel, that of 20 litres. */
function openEvaporationCPerS(physics: VesselPhysics | null, roomC: number): number {
  const { topM2, capacityJPerC } = physics ?? vesselPhysics(TWENTY_LITRES)
  return (evaporationWPerM2(80, calmRoom(roomC)) * topM2) / capacityJPerC
}

const TWENTY_LITRES: Vessel = { litres: 20, burner: { dialMax: 10 } }

/** The same from what was learned of the pot; a day's draughts are added to what it leaves open. */
export function learnedCooling(
  belief: PotBelief,
  lid: 'on' | 'off',
  roomC: number | undefined,
  roomSpreadC: number | undefined,
): CoolingGuess {
  const guess = guessCooling(belief.vessel, lid, roomC, roomSpreadC)
  const fromGuess = guessPot(belief.vessel)
  const evaporation = lid === 'on' ? AT.evaporationOn : AT.evaporationOff
  const moved = (place: number) => belief.mean[place]! - fromGuess.mean[place]!
  const spread = (place: number) => Math.sqrt(belief.covariance[place]![place]! + DAY_SPREAD ** 2)
  const [logDry, logEvaporation, meanC] = guess.mean
  return {
    ...guess,
    mean: [
      logDry + moved(AT.dry) - moved(AT.capacity),
      logEvaporation + moved(evaporation) - moved(AT.capacity),
      meanC,
      1 + belief.mean[AT.bend]!,
      belief.mean[AT.evaporationRise]!,
    ],
    spread: [
      spread(AT.dry),
      spread(evaporation),
      guess.spread[2],
      Math.sqrt(belief.covariance[AT.bend]![AT.bend]!),
      Math.sqrt(belief.covariance[AT.evaporationRise]![AT.evaporationRise]!),
    ],
  }
}

const DAY_SPREAD = 0.06
