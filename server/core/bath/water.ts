/** Properties of liquid water and of its steam as functions of temperature (0…105 °C) and altitude. */

/**
 * Density at one atmosphere, kg/m³.
 * Kell, J. Chem. Eng. Data 20 (1975) 97 (coefficients from memory); within 0.02 kg/m³ of IAPWS-IF97 from 10 to 100 °C.
 */
export function densityKgPerM3(tempC: number): number {
  const t = tempC
  const top =
    999.83952 +
    t * (16.945176 + t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 - t * 280.54253e-12))))
  return top / (1 + 16.87985e-3 * t)
}

/** Heat capacity at constant pressure, J/(kg K). A cubic through IAPWS-IF97 at one atmosphere, within 1 J/(kg K). */
export function heatCapacityJPerKgC(tempC: number): number {
  return 4206.49 + tempC * (-1.416366 + tempC * (0.01966304 - tempC * 4.494966e-5))
}

/** Latent heat of evaporation at saturation, J/kg. A cubic through IAPWS-IF97, within 100 J/kg from 10 to 100 °C. */
export function latentHeatJPerKg(tempC: number): number {
  return 2500976.55 + tempC * (-2379.64263 + tempC * (0.656503 - tempC * 0.01311978))
}

/** n1…n10 of IAPWS-IF97, table 34. */
const N = [
  0.11670521452767e4, -0.72421316703206e6, -0.17073846940092e2, 0.1202082470247e5, -0.32325550322333e7,
  0.1491510861353e2, -0.48232657361591e4, 0.40511340542057e6, -0.23855557567849, 0.65017534844798e3,
] as const

const KELVIN = 273.15

/** Pressure at which water of this temperature boils, Pa. IAPWS-IF97, equation 30. */
export function saturationPa(tempC: number): number {
  const t = tempC + KELVIN
  const theta = t + N[8] / (t - N[9])
  const a = theta * theta + N[0] * theta + N[1]
  const b = N[2] * theta * theta + N[3] * theta + N[4]
  const c = N[5] * theta * theta + N[6] * theta + N[7]
  return 1e6 * ((2 * c) / (-b + Math.sqrt(b * b - 4 * a * c))) ** 4
}

/** Temperature at which water boils under this pressure, °C. IAPWS-IF97, equation 31. */
export function boilingAtPaC(pressurePa: number): number {
  const beta = (pressurePa / 1e6) ** 0.25
  const e = beta * beta + N[2] * beta + N[5]
  const f = N[0] * beta * beta + N[3] * beta + N[6]
  const g = N[1] * beta * beta + N[4] * beta + N[7]
  const d = (2 * g) / (-f - Math.sqrt(f * f - 4 * e * g))
  return (N[9] + d - Math.sqrt((N[9] + d) ** 2 - 4 * (N[8] + N[9] * d))) / 2 - KELVIN
}

/** Pressure of the air at a height above the sea, Pa. US Standard Atmosphere 1976, below 11 km. */
export const airPressurePa = (altitudeM: number): number =>
  101_325 * (1 - (0.0065 * altitudeM) / 288.15) ** 5.255876

/** Boiling point of water at a height above the sea, °C; weather moves it by about ±0.8 °C. */
export const boilingC = (altitudeM: number): number => boilingAtPaC(airPressurePa(altitudeM))
