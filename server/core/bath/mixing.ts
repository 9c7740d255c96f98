import { densityKgPerM3, heatCapacityJPerKgC } from './water.ts'

/** Something with heat in it: its heat capacity, J/°C, and temperature, °C. */
export interface Warm {
  readonly capacityJPerC: number
  readonly tempC: number
}

/** Temperature of everything together once it is mixed, °C; `NaN` for nothing at all. */
export function mixedC(parts: readonly Warm[]): number {
  let heatJ = 0
  let capacityJPerC = 0
  for (const part of parts) {
    heatJ += part.capacityJPerC * part.tempC
    capacityJPerC += part.capacityJPerC
  }
  return heatJ / capacityJPerC
}

export const water = (litres: number, tempC: number): Warm => ({
  capacityJPerC: (litres / 1000) * densityKgPerM3(20) * heatCapacityJPerKgC(tempC),
  tempC,
})

/** Heat capacity of dry fibre, J/(kg K): handbooks give wool 1.36 and cotton 1.15…1.34 kJ. */
const FIBRE_J_PER_KG_C = 1340

/** Goods with the water that they carry; `waterKg` left out: twice their dry weight, as after a soak (common practice). */
export function wetGoods(dryKg: number, tempC: number, waterKg = 2 * dryKg): Warm {
  return { capacityJPerC: dryKg * FIBRE_J_PER_KG_C + waterKg * heatCapacityJPerKgC(tempC), tempC }
}
