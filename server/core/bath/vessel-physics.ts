import { densityKgPerM3, heatCapacityJPerKgC } from './water.ts'
import type { Burner, BurnerKind, Vessel } from './vessel.ts'

/** What a vessel file leaves open, filled in by geometry and handbook values: guesses until a trace is learned from. */
export interface VesselPhysics {
  readonly waterKg: number
  readonly diameterM: number
  /** Depth of the water, metres. */
  readonly depthM: number
  readonly topM2: number
  readonly wallM2: number
  /** Water and pot together, J/°C, near 60 °C. */
  readonly capacityJPerC: number
  readonly roomC: number
  readonly altitudeM: number
  /** Seconds by which the element's heat comes late. */
  readonly elementLagS: number
  /** Share of the rated power that reaches the water, 0…1. */
  readonly efficiency01: number
  /** Power that reaches the water with the dial at its top, W. */
  readonly fullW: number
}

export function vesselPhysics(vessel: Vessel): VesselPhysics {
  const waterKg = (vessel.litres / 1000) * densityKgPerM3(20)
  const volumeM3 = vessel.litres / 1000
  const diameterM = vessel.diameterCm === undefined ? usualDiameterM(volumeM3) : vessel.diameterCm / 100
  const topM2 = (Math.PI * diameterM ** 2) / 4
  const depthM = volumeM3 / topM2
  const emptyKg = vessel.emptyKg ?? usualEmptyKg(vessel.litres)
  const kind = vessel.burner.kind
  return {
    waterKg,
    diameterM,
    depthM,
    topM2,
    wallM2: Math.PI * diameterM * depthM,
    capacityJPerC: waterKg * heatCapacityJPerKgC(60) + emptyKg * materialJPerKgC(vessel.material),
    roomC: vessel.surroundingsC ?? 20,
    altitudeM: vessel.altitudeM ?? 0,
    elementLagS: kind === undefined ? 90 : ELEMENT_LAG_S[kind],
    efficiency01: kind === undefined ? 0.65 : EFFICIENCY[kind],
    fullW: fullPowerW(vessel.burner, vessel.litres),
  }
}

/**
 * Stored heat ÷ power of common burners: induction about 40 kJ, thin coils 120 kJ, cast plates 450 kJ at
 * 1.5…2 kW (orders of magnitude, calculated from the masses of metal; no source).
 */
const ELEMENT_LAG_S: Readonly<Record<BurnerKind, number>> = { coil: 70, plate: 260, gas: 25, induction: 20 }

/** Share of the power that reaches the vessel: the US DOE's 84, 74 and 40 % as quoted; a plate loses more at its rim. */
const EFFICIENCY: Readonly<Record<BurnerKind, number>> = {
  coil: 0.74,
  plate: 0.65,
  gas: 0.42,
  induction: 0.84,
}

function fullPowerW(burner: Burner, litres: number): number {
  const efficiency = burner.kind === undefined ? 0.65 : EFFICIENCY[burner.kind]
  // Without a nameplate: what brings a pot of this size up at about 1 °C a minute (common practice, no source).
  return burner.ratedW === undefined ? 300 + 60 * Math.min(litres, 60) : burner.ratedW * efficiency
}

/** A pot about as high as 1.2 times its width, filled to 80 % (common practice, no source). */
const usualDiameterM = (volumeM3: number): number => Math.cbrt((4 * volumeM3) / (Math.PI * 0.95))

/** Steel pots weigh about 0.7 kg and 0.12 kg a litre (common practice, no source). */
const usualEmptyKg = (litres: number): number => 0.7 + 0.12 * litres

/** Heat capacity of what pots are made of, J/(kg K): handbook values, austenitic steel when nothing is known. */
function materialJPerKgC(material = 'steel'): number {
  const name = material.toLowerCase()
  if (/alumin/.test(name)) return 900
  if (/copper|brass/.test(name)) return 385
  if (/enamel|iron/.test(name)) return 460
  if (/glass|ceramic|stoneware|clay/.test(name)) return 830
  if (/plastic|poly/.test(name)) return 1900
  return 500
}
