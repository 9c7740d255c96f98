import { calmRoom, evaporationWPerM2 } from './losses.ts'
import { type VesselPhysics, vesselPhysics } from './vessel-physics.ts'
import type { Vessel } from './vessel.ts'

/**
 * How a bath without heat cools: dT/dt = −k·(T − Ta)·((T − Ta)/40)^(n−1) − m·e(T)/e(80).
 * Newton's law with a bend `n` for natural convection (1: a pure exponential) and evaporation from the surface.
 */
export interface CoolingParameters {
  /** k, 1/s: the dry loss at 40 °C above the room. */
  readonly dryPerS: number
  /** m, °C/s: what evaporation takes at 80 °C. */
  readonly evaporationCPerS: number
  readonly roomC: number
  /** n */
  readonly bend: number
}

/** The same as a vector for the fit: ln k, ln m, Ta, n. */
export type CoolingVector = readonly [logDry: number, logEvaporation: number, roomC: number, bend: number]

export interface CoolingGuess {
  readonly mean: CoolingVector
  /** Standard deviations. */
  readonly spread: CoolingVector
  readonly altitudeM: number
}

export const coolingParameters = (at: readonly number[]): CoolingParameters => ({
  dryPerS: Math.exp(at[0]!),
  evaporationCPerS: Math.exp(at[1]!),
  roomC: at[2]!,
  bend: at[3]!,
})

export const coolingVector = (p: CoolingParameters): CoolingVector => [
  Math.log(p.dryPerS),
  Math.log(p.evaporationCPerS),
  p.roomC,
  p.bend,
]

export type Lid = 'on' | 'off' | null

/** Evaporation of an open surface by temperature, as a share of that at 80 °C; whole degrees from 0 to 110. */
export type EvaporationTable = readonly number[]

export function evaporationTable(roomC: number, altitudeM = 0): EvaporationTable {
  const room = calmRoom(roomC, altitudeM)
  const at80 = evaporationWPerM2(80, room)
  // Vapour at the boiling point fills the air: the correlation ends there.
  const highest = 99
  return Array.from({ length: 111 }, (_, tempC) => evaporationWPerM2(Math.min(tempC, highest), room) / at80)
}

export function evaporationShare(table: EvaporationTable, tempC: number): number {
  const place = Math.min(109.999, Math.max(0, tempC))
  const left = Math.floor(place)
  return table[left]! + (table[left + 1]! - table[left]!) * (place - left)
}

/** Rate of a bath without heat, °C/s, ≤ 0 above the room. */
export function coolingRateCPerS(p: CoolingParameters, table: EvaporationTable, tempC: number): number {
  const aboveC = tempC - p.roomC
  if (aboveC <= 0) return -p.dryPerS * aboveC
  const dry = p.dryPerS * aboveC * (aboveC / 40) ** (p.bend - 1)
  return -dry - p.evaporationCPerS * evaporationShare(table, tempC)
}

/**
 * What to expect before a curve is seen. Sides 9, lid 7, open surface 12 W/(m² K) dry, evaporation after the
 * handbook, a lidded pot 1.4 % of it; real pots differ by ±40 % (calculated, no source).
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
  const altitudeM = physics?.altitudeM ?? 0
  const evaporates = EVAPORATES[lid ?? 'unknown']
  return {
    mean: [
      // Without a vessel: a time constant of three hours.
      Math.log(physics === null ? 1 / 10_800 : dryPerS(physics, lid)),
      Math.log(openEvaporationCPerS(physics, meanC) * evaporates.share),
      meanC,
      1.035,
    ],
    spread: [
      physics === null ? 1 : 0.4,
      evaporates.spread + (physics === null ? 0.7 : 0),
      roomSpreadC ?? (room === undefined ? 4 : 1.5),
      0.06,
    ],
    altitudeM,
  }
}

/** Evaporation as a share of the open surface's, and the spread of its logarithm. */
const EVAPORATES = {
  off: { share: 0.9, spread: 0.35 },
  on: { share: 0.014, spread: 1.2 },
  unknown: { share: 0.15, spread: 1.5 },
} as const

function dryPerS(physics: VesselPhysics, lid: Lid): number {
  const topWPerM2C = lid === 'off' ? 12 : 7
  return (9 * physics.wallM2 + topWPerM2C * physics.topM2) / physics.capacityJPerC
}

/** °C/s that evaporation from the open pot takes at 80 °C; without a vessel, that of 20 litres. */
function openEvaporationCPerS(physics: VesselPhysics | null, roomC: number): number {
  const { topM2, capacityJPerC, altitudeM } = physics ?? vesselPhysics(TWENTY_LITRES)
  return (evaporationWPerM2(80, calmRoom(roomC, altitudeM)) * topM2) / capacityJPerC
}

const TWENTY_LITRES: Vessel = { litres: 20, burner: { dialMax: 10 } }
