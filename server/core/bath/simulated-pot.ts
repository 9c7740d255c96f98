import { calmRoom, evaporationWPerM2, plateConvectionWPerM2, radiationWPerM2 } from './losses.ts'
import { vesselPhysics, type VesselPhysics } from './vessel-physics.ts'
import type { Vessel } from './vessel.ts'
import { boilingC, heatCapacityJPerKgC, latentHeatJPerKg } from './water.ts'

/** A pot that exists only as numbers, for the demo and for a probe without hardware. Never a stand-in for a reading. */
export interface SimulatedPotSetup {
  readonly vessel: Vessel
  /** Bath at the start, °C; the room's temperature when left out. */
  readonly startC?: number
  /** Share of the full power, 0…1, at equal steps of the dial from 0 to its top; about half-way nodes make it bent. */
  readonly dialCurve?: readonly number[]
  /** Time constant of the probe, s. */
  readonly probeLagS?: number
  /** Smallest step that the probe shows, °C. */
  readonly stepC?: number
  /** Spread of the probe's noise before it is rounded, °C. */
  readonly noiseC?: number
  /** Multiplies every loss: 1 is the handbook. */
  readonly lossFactor?: number
}

export interface SimulatedPotState {
  readonly setup: SimulatedPotSetup
  readonly physics: VesselPhysics
  readonly waterKg: number
  /** Heat capacity of pot and goods, J/°C, without the water. */
  readonly solidsJPerC: number
  readonly waterC: number
  /** Heat still in the element that will reach the water, J. */
  readonly storedJ: number
  readonly probeC: number
  readonly dial: number
  readonly lid: 'on' | 'off'
  readonly probeIn: boolean
}

/** What a person does at the pot at the beginning of a step. Masses in kg, temperatures in °C. */
export interface PotAct {
  readonly dial?: number
  readonly lid?: 'on' | 'off'
  readonly probe?: 'in' | 'out'
  readonly goodsIn?: { readonly dryKg: number; readonly waterKg: number; readonly tempC: number }
  readonly goodsOut?: { readonly dryKg: number; readonly waterKg: number }
  readonly topUp?: { readonly litres: number; readonly tempC: number }
}

/** Heat capacity of dry fibre, J/(kg K): handbook, wool 1.36 and cotton 1.15…1.34. */
const FIBRE_J_PER_KG_C = 1340

/** A probe taken out cools toward steam and air of about 30 °C with this time constant, s (calculated, no source). */
const OUT = { aroundC: 30, lagS: 68 } as const

export function startPot(setup: SimulatedPotSetup): SimulatedPotState {
  const physics = vesselPhysics(setup.vessel)
  const waterC = setup.startC ?? physics.roomC
  return {
    setup,
    physics,
    waterKg: physics.waterKg,
    solidsJPerC: physics.capacityJPerC - physics.waterKg * heatCapacityJPerKgC(60),
    waterC,
    storedJ: 0,
    probeC: waterC,
    dial: 0,
    lid: 'on',
    probeIn: true,
  }
}

/** The pot `dtS` seconds later (≥ 0), after the acts. The same steps give the same pot. */
export function stepPot(state: SimulatedPotState, dtS: number, act: PotAct = {}): SimulatedPotState {
  let next = afterAct(state, act)
  for (let leftS = dtS; leftS > 0; leftS -= 5) next = shortStep(next, Math.min(5, leftS))
  return next
}

/** What the probe shows, °C, in its own steps. `random`: uniform on 0…1, from a seeded source, for the noise. */
export function probeC(state: SimulatedPotState, random?: () => number): number {
  const { stepC = 0.0625, noiseC = 0.03 } = state.setup
  // The sum of three uniform numbers is near enough to a normal one; its spread is 1/2.
  const noise = random === undefined ? 0 : (random() + random() + random() - 1.5) * 2 * noiseC
  return Math.round((state.probeC + noise) / stepC) * stepC
}

/** Heat that the pot gives to the room now, W. */
export function lossW(state: SimulatedPotState): number {
  const { physics, waterC } = state
  const factor = state.setup.lossFactor ?? 1
  const aboveC = waterC - physics.roomC
  // Sides 9, lid 7 W/(m² K): calculated for a bare steel pot, ±40 % (no source).
  const wallW = 9 * physics.wallM2 * aboveC
  if (state.lid === 'on') return factor * (wallW + 7 * physics.topM2 * aboveC)
  return factor * (wallW + physics.topM2 * openTopWPerM2(physics, waterC))
}

function openTopWPerM2(physics: VesselPhysics, waterC: number): number {
  const radiation = radiationWPerM2(waterC, physics.roomC, 0.95)
  const convection =
    waterC > physics.roomC ? plateConvectionWPerM2(waterC, physics.roomC, physics.diameterM / 4) : 0
  return radiation + convection + evaporationWPerM2(waterC, calmRoom(physics.roomC))
}

function shortStep(state: SimulatedPotState, dtS: number): SimulatedPotState {
  const { physics } = state
  const intoElementW = physics.fullW * share(state)
  const kept = Math.exp(-dtS / physics.elementLagS)
  const storedJ = state.storedJ * kept + intoElementW * physics.elementLagS * (1 - kept)
  const heatJ = state.storedJ + intoElementW * dtS - storedJ
  const capacityJPerC = state.waterKg * heatCapacityJPerKgC(state.waterC) + state.solidsJPerC
  const unboiledC = state.waterC + (heatJ - lossW(state) * dtS) / capacityJPerC
  const waterC = Math.min(unboiledC, boilingC(physics.altitudeM))
  const steamJ = (unboiledC - waterC) * capacityJPerC + evaporationJ(state, dtS)
  const waterKg = Math.max(0.02 * physics.waterKg, state.waterKg - steamJ / latentHeatJPerKg(waterC))
  return { ...state, waterC, storedJ, waterKg, probeC: probeAfter(state, dtS) }
}

function evaporationJ(state: SimulatedPotState, dtS: number): number {
  if (state.lid === 'on') return 0
  const { physics, waterC } = state
  const factor = state.setup.lossFactor ?? 1
  return factor * physics.topM2 * evaporationWPerM2(waterC, calmRoom(physics.roomC)) * dtS
}

function probeAfter(state: SimulatedPotState, dtS: number): number {
  const [towardC, lagS] = state.probeIn
    ? [state.waterC, state.setup.probeLagS ?? 12]
    : [OUT.aroundC, OUT.lagS]
  return towardC + (state.probeC - towardC) * Math.exp(-dtS / lagS)
}

/** Share of the full power at the dial as it stands; without a curve, power rises as the dial to the 1.3. */
function share(state: SimulatedPotState): number {
  const turned01 = Math.min(1, Math.max(0, state.dial / state.setup.vessel.burner.dialMax))
  const curve = state.setup.dialCurve
  if (curve === undefined || curve.length < 2) return turned01 ** 1.3
  const place = turned01 * (curve.length - 1)
  const left = Math.min(Math.floor(place), curve.length - 2)
  return curve[left]! + (curve[left + 1]! - curve[left]!) * (place - left)
}

function afterAct(state: SimulatedPotState, act: PotAct): SimulatedPotState {
  let next: SimulatedPotState = {
    ...state,
    dial: act.dial ?? state.dial,
    lid: act.lid ?? state.lid,
    probeIn: act.probe === undefined ? state.probeIn : act.probe === 'in',
  }
  if (act.topUp !== undefined) next = withWater(next, act.topUp.litres * 0.998, act.topUp.tempC)
  if (act.goodsIn !== undefined) next = withGoods(next, act.goodsIn)
  if (act.goodsOut !== undefined) next = withoutGoods(next, act.goodsOut)
  return next
}

function withWater(state: SimulatedPotState, addedKg: number, addedC: number): SimulatedPotState {
  const inPotJPerC = state.waterKg * heatCapacityJPerKgC(state.waterC) + state.solidsJPerC
  const addedJPerC = addedKg * heatCapacityJPerKgC(addedC)
  const waterC = (inPotJPerC * state.waterC + addedJPerC * addedC) / (inPotJPerC + addedJPerC)
  return { ...state, waterC, waterKg: state.waterKg + addedKg }
}

function withGoods(state: SimulatedPotState, goods: NonNullable<PotAct['goodsIn']>): SimulatedPotState {
  const wet = withWater(state, goods.waterKg, goods.tempC)
  const goodsJPerC = goods.dryKg * FIBRE_J_PER_KG_C
  const inPotJPerC = wet.waterKg * heatCapacityJPerKgC(wet.waterC) + wet.solidsJPerC
  const waterC = (inPotJPerC * wet.waterC + goodsJPerC * goods.tempC) / (inPotJPerC + goodsJPerC)
  return { ...wet, waterC, solidsJPerC: wet.solidsJPerC + goodsJPerC }
}

const withoutGoods = (
  state: SimulatedPotState,
  goods: NonNullable<PotAct['goodsOut']>,
): SimulatedPotState => ({
  ...state,
  waterKg: Math.max(0.02 * state.physics.waterKg, state.waterKg - goods.waterKg),
  solidsJPerC: Math.max(0, state.solidsJPerC - goods.dryKg * FIBRE_J_PER_KG_C),
})
