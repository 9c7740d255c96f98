import { calmRoom, evaporationWPerM2 } from './losses.ts'

/** Evaporation of an open surface at whole degrees from 0 to 110 °C, made once and looked up often. */
export interface EvaporationTable {
  /** W/m² */
  readonly openWPerM2: readonly number[]
  /** ln of the vapour's overpressure over that at 80 °C. */
  readonly logPressure: readonly number[]
}

/**
 * Published evaporation rises with the vapour pressure itself (`evaporationWPerM2`) or steeper (the analogy with
 * convection: between 60 and 84 °C they part by 15 %). What is taken here lies between them, nearer to the first, and
 * `steeper` moves away from it as the traces say.
 */
const MIDDLE_RISE = 0.05

export function evaporationTable(roomC: number): EvaporationTable {
  const room = calmRoom(roomC)
  const evaporates = Array.from({ length: 111 }, (_, tempC) => Math.max(0.1, evaporationWPerM2(tempC, room)))
  const logPressure = evaporates.map((value) => Math.log(value / evaporates[80]!))
  return {
    openWPerM2: evaporates.map((value, i) => value * Math.exp(MIDDLE_RISE * logPressure[i]!)),
    logPressure,
  }
}

/** The table's values times `factor`, rising with the vapour pressure to the power `rise` more; unchanged at 80 °C. */
export function steeper(table: EvaporationTable, rise: number, factor: number): readonly number[] {
  return table.openWPerM2.map((value, tempC) => factor * value * Math.exp(rise * table.logPressure[tempC]!))
}

/** A table's value between its whole degrees. */
export function lookUp(table: readonly number[], tempC: number): number {
  const place = tempC < 0 ? 0 : tempC > 109.99 ? 109.99 : tempC
  const left = Math.floor(place)
  const low = table[left]!
  return low + (table[left + 1]! - low) * (place - left)
}
