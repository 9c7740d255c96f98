import { calmRoom, evaporationWPerM2, type RoomAir } from './losses.ts'
import { boilingC, saturationPa } from './water.ts'

/** Evaporation of an open surface at whole degrees from 0 to 110 °C, made once and looked up often. */
export interface EvaporationTable {
  /** W/m² */
  readonly openWPerM2: readonly number[]
  /** ln of the vapour's overpressure over that at 80 °C. */
  readonly logPressure: readonly number[]
}

/**
 * Published evaporation rises with the vapour pressure itself (Carrier's form, the handbook's table) or steeper (the
 * analogy with convection, the US DOE's table): between 60 and 84 °C they part by 15 %. What is taken here lies nearer to the first, and
 * `steeper` moves away from it as the traces say.
 */
const MIDDLE_RISE = -0.14

export function evaporationTable(roomC: number, altitudeM = 0): EvaporationTable {
  const room = calmRoom(roomC, altitudeM)
  // Just under the boiling point vapour fills the air over the bath and the correlation ends.
  const highestC = boilingC(altitudeM) - 1
  const degrees = Array.from({ length: 111 }, (_, tempC) => Math.min(tempC, highestC))
  const logPressure = degrees.map((tempC) => Math.log(overpressurePa(tempC, room) / overpressurePa(80, room)))
  const openWPerM2 = degrees.map(
    (tempC, i) => evaporationWPerM2(tempC, room) * Math.exp(MIDDLE_RISE * logPressure[i]!),
  )
  return { openWPerM2, logPressure }
}

const overpressurePa = (tempC: number, room: RoomAir): number =>
  Math.max(1, saturationPa(tempC) - room.humidity01 * saturationPa(room.airC))

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
