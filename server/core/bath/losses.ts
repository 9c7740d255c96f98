import { saturationPa } from './water.ts'

/** Heat that a hot surface gives to still air, W/m², from published correlations. */

const KELVIN = 273.15
const GRAVITY = 9.80665
/** Gas constant of dry air, J/(kg K). */
const DRY_AIR = 287.05
/** Heat capacity of air, J/(kg K). */
const AIR_CP = 1007

export interface Air {
  readonly conductivity: number
  readonly viscosityM2PerS: number
  readonly diffusivityM2PerS: number
  readonly prandtl: number
  readonly densityKgPerM3: number
}

/**
 * Dry air at a film temperature and at sea level. Viscosity and conductivity: US Standard Atmosphere 1976, equations 51 and 53
 * (numbers from memory; within 3 % of textbook tables at 60 °C).
 */
export function airAt(filmC: number): Air {
  const t = filmC + KELVIN
  const densityKgPerM3 = 101_325 / (DRY_AIR * t)
  const viscosityM2PerS = (1.458e-6 * t ** 1.5) / (t + 110.4) / densityKgPerM3
  const conductivity = (2.64638e-3 * t ** 1.5) / (t + 245.4 * 10 ** (-12 / t))
  const diffusivityM2PerS = conductivity / (densityKgPerM3 * AIR_CP)
  return {
    conductivity,
    viscosityM2PerS,
    diffusivityM2PerS,
    prandtl: viscosityM2PerS / diffusivityM2PerS,
    densityKgPerM3,
  }
}

/** Net radiation of a surface to surroundings of one temperature, W/m² (Stefan–Boltzmann). */
export function radiationWPerM2(surfaceC: number, roomC: number, emissivity: number): number {
  return emissivity * 5.670374e-8 * ((surfaceC + KELVIN) ** 4 - (roomC + KELVIN) ** 4)
}

/** Rayleigh number of a surface in air; `sizeM`: height of a wall, area ÷ perimeter of a plate. */
export function rayleigh(surfaceC: number, airC: number, sizeM: number): number {
  const film = airAt((surfaceC + airC) / 2)
  const expansion = 1 / ((surfaceC + airC) / 2 + KELVIN)
  const push = GRAVITY * expansion * Math.abs(surfaceC - airC) * sizeM ** 3
  return push / (film.viscosityM2PerS * film.diffusivityM2PerS)
}

/** Natural convection from a wall, W/m². Churchill and Chu 1975, for all Rayleigh numbers. */
export function wallConvectionWPerM2(surfaceC: number, airC: number, heightM: number): number {
  const film = airAt((surfaceC + airC) / 2)
  const ra = rayleigh(surfaceC, airC, heightM)
  const nusselt =
    (0.825 + (0.387 * ra ** (1 / 6)) / (1 + (0.492 / film.prandtl) ** (9 / 16)) ** (8 / 27)) ** 2
  return ((nusselt * film.conductivity) / heightM) * (surfaceC - airC)
}

/** Natural convection from a plate that faces up and is hotter than the air, W/m². McAdams 1954. `sizeM`: area ÷ perimeter. */
export function plateConvectionWPerM2(surfaceC: number, airC: number, sizeM: number): number {
  const film = airAt((surfaceC + airC) / 2)
  const ra = rayleigh(surfaceC, airC, sizeM)
  const nusselt = ra < 2e7 ? 0.54 * ra ** 0.25 : 0.14 * Math.cbrt(ra)
  return ((nusselt * film.conductivity) / sizeM) * (surfaceC - airC)
}

export interface RoomAir {
  readonly airC: number
  /** Relative humidity, 0…1. */
  readonly humidity01: number
}

/** A calm room, half humid. */
export const calmRoom = (airC: number): RoomAir => ({ airC, humidity01: 0.5 })

/** Heat carried off for each pascal of overpressure, W/(m² Pa): in still air, and for each m/s of wind. */
const CARRIER = { still: 0.089, perMPerS: 0.0782 } as const

/** What moves over a pot in a room without draughts, m/s (judged: 0.1…0.25 is usual indoors). */
const CALM_M_PER_S = 0.2

/**
 * Heat carried off by evaporation from an open, still water surface, W/m²; 0 when the air is wetter than the surface.
 * Carrier's law of 1918 as the ASHRAE handbook has it for pools (numbers from memory): it rises with the vapour's
 * pressure over the room's. Within 20 % of the US DOE's Steam Tip Sheet 19 and of a handbook's table from 38 to 99 °C.
 */
export function evaporationWPerM2(waterC: number, room: RoomAir): number {
  const overPa = saturationPa(waterC) - room.humidity01 * saturationPa(room.airC)
  return Math.max(0, (CARRIER.still + CARRIER.perMPerS * CALM_M_PER_S) * overPa)
}
