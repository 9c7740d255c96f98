import { type EvaporationTable, evaporationTable, lookUp, steeper } from './evaporation-table.ts'
import { DIAL_NODES } from './dial-prior.ts'
import { AT } from './pot-belief.ts'
import { vesselPhysics } from './vessel-physics.ts'
import type { Vessel } from './vessel.ts'
import { boilingC } from './water.ts'

/**
 * The grey box: one temperature of water and pot, a burner whose heat comes late, losses dry and by evaporation, and
 * a lagging probe. `docs/heat.md` explains it on one page.
 */
export interface PotModel {
  readonly dialMax: number
  readonly boilingC: number
  readonly roomC: number
  readonly topM2: number
  /** Dry loss with the lid off over that with the lid on. */
  readonly openDryRatio: number
  readonly evaporation: EvaporationTable
}

export interface PotNow {
  readonly waterC: number
  /** Heat that flows from the element into the water, W. */
  readonly heatW: number
  readonly probeC: number
  /** Heat capacity, J/°C. */
  readonly capacityJPerC: number
}

/** A model with its parameters worked out once, for many steps. */
export interface TunedPot {
  readonly model: PotModel
  readonly capacityJPerC: number
  readonly elementLagS: number
  readonly probeLagS: number
  /** Dry loss, W/°C, by lid. */
  readonly dryWPerC: Readonly<Record<Lid, number>>
  /** How much the dry loss per degree grows from 40 to 80 °C above the room. */
  readonly bend: number
  /** Square metres of open water that evaporate as much as this pot, by lid. */
  readonly evaporatingM2: Readonly<Record<Lid, number>>
  /** Evaporation of one square metre, W, at whole degrees from 0 to 110. */
  readonly evaporation: readonly number[]
  /** ln W at `DIAL_NODES`. */
  readonly logPowers: readonly number[]
}

export type Lid = 'on' | 'off'

/** What stays the same during a stretch of time. `intoW`: what reaches the water once the element is warm. */
export interface Setting {
  readonly intoW: number
  readonly lid: Lid
  readonly roomC: number
}

/** Worked out once for each vessel: a forecast asks for it several times. */
const MODELS = new WeakMap<Vessel, PotModel>()

export function potModel(vessel: Vessel): PotModel {
  const known = MODELS.get(vessel)
  if (known !== undefined) return known
  const model = workedOut(vessel)
  MODELS.set(vessel, model)
  return model
}

function workedOut(vessel: Vessel): PotModel {
  const physics = vesselPhysics(vessel)
  const boilsAtC = boilingC(physics.altitudeM)
  return {
    dialMax: vessel.burner.dialMax,
    boilingC: boilsAtC,
    roomC: physics.roomC,
    topM2: physics.topM2,
    openDryRatio: (9 * physics.wallM2 + 12 * physics.topM2) / (9 * physics.wallM2 + 7 * physics.topM2),
    evaporation: evaporationTable(physics.roomC),
  }
}

export function tuned(model: PotModel, parameters: readonly number[]): TunedPot {
  const value = (place: number) => Math.exp(parameters[place]!)
  return {
    model,
    capacityJPerC: value(AT.capacity),
    elementLagS: value(AT.elementLag),
    probeLagS: value(AT.probeLag),
    dryWPerC: { on: value(AT.dry), off: value(AT.dry) * model.openDryRatio },
    bend: parameters[AT.bend]!,
    evaporatingM2: {
      on: value(AT.evaporationOn) * model.topM2,
      off: value(AT.evaporationOff) * model.topM2,
    },
    evaporation: steeper(model.evaporation, parameters[AT.evaporationRise]!, 1),
    logPowers: parameters.slice(AT.power, AT.power + DIAL_NODES.length),
  }
}

/** Power that reaches the water at a dial once the element is warm, W. 0 at 0; past the top as at the top. */
export function powerW(pot: TunedPot, dial: number): number {
  const share = Math.min(1, dial / pot.model.dialMax)
  if (!(share > 0)) return 0
  const { left, along } = dialPlace(share)
  const low = pot.logPowers[left]!
  return Math.exp(low + (pot.logPowers[left + 1]! - low) * along)
}

/** Between which nodes a share lies, and how far along in ln share; under the first node the first slope goes on. */
export function dialPlace(share: number): { readonly left: number; readonly along: number } {
  let left = 0
  while (left < DIAL_NODES.length - 2 && share > DIAL_NODES[left + 1]!) left += 1
  const from = Math.log(DIAL_NODES[left]!)
  return { left, along: (Math.log(share) - from) / (Math.log(DIAL_NODES[left + 1]!) - from) }
}

/** Heat given to the room, W. */
export function lossW(pot: TunedPot, lid: Lid, roomC: number, tempC: number): number {
  const aboveC = tempC - roomC
  return pot.dryWPerC[lid] * aboveC * (1 + (pot.bend * (aboveC - 40)) / 40) + evaporationW(pot, lid, tempC)
}

const evaporationW = (pot: TunedPot, lid: Lid, tempC: number): number =>
  pot.evaporatingM2[lid] * lookUp(pot.evaporation, tempC)

/** Heat of an evaporated kilogram and what the same kilogram held, J/kg and J/(kg °C), near 80 °C. */
const STEAM_J_PER_KG = 2.31e6
const WATER_J_PER_KG_C = 4196

/** The pot `dtS` later (0…about 120 s) with the setting unchanged. */
export function stepModel(pot: TunedPot, setting: Setting, now: PotNow, dtS: number): PotNow {
  if (dtS <= 0) return now
  const { intoW, lid, roomC } = setting
  const kept = Math.exp(-dtS / pot.elementLagS)
  const meanW = intoW + ((now.heatW - intoW) * pot.elementLagS * (1 - kept)) / dtS
  const halfC = now.waterC + ((meanW - lossW(pot, lid, roomC, now.waterC)) * dtS) / 2 / now.capacityJPerC
  const freeC = now.waterC + ((meanW - lossW(pot, lid, roomC, halfC)) * dtS) / now.capacityJPerC
  const waterC = Math.min(freeC, pot.model.boilingC)
  const steamW = lid === 'off' ? evaporationW(pot, lid, halfC) : 0
  const goneJPerC = (WATER_J_PER_KG_C * steamW * dtS) / STEAM_J_PER_KG
  return {
    waterC,
    heatW: intoW + (now.heatW - intoW) * kept,
    probeC: probeAfter(pot.probeLagS, now, waterC, dtS),
    capacityJPerC: Math.max(now.capacityJPerC - goneJPerC, 0.1 * now.capacityJPerC),
  }
}

/** A first-order probe while the water goes straight from one temperature to the other. */
function probeAfter(lagS: number, now: PotNow, waterC: number, dtS: number): number {
  const behindC = ((waterC - now.waterC) / dtS) * lagS
  return waterC - behindC + (now.probeC - now.waterC + behindC) * Math.exp(-dtS / lagS)
}
