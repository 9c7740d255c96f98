const ZERO_C_IN_K = 273.15
const REFERENCE_K = 298.15

/** °C by 1/T = 1/298.15 K + ln(R/R25)/β. Ohms and kelvin, both > 0. */
export function thermistorByBetaC(ohms: number, ohms25: number, betaK: number): number {
  return 1 / (1 / REFERENCE_K + Math.log(ohms / ohms25) / betaK) - ZERO_C_IN_K
}

/** The three constants of 1/T = a + b·ln R + c·(ln R)³, R in ohms, T in kelvin. */
export interface SteinhartHart {
  readonly a: number
  readonly b: number
  readonly c: number
}

/** °C by Steinhart and Hart's equation. */
export function thermistorC(ohms: number, { a, b, c }: SteinhartHart): number {
  const lnR = Math.log(ohms)
  return 1 / (a + b * lnR + c * lnR ** 3) - ZERO_C_IN_K
}

export interface OhmsAtC {
  readonly ohms: number
  readonly tempC: number
}

/** The constants through three points of a thermistor's table; the three resistances differ. */
export function steinhartHartThrough(points: readonly [OhmsAtC, OhmsAtC, OhmsAtC]): SteinhartHart {
  const [l1, l2, l3] = points.map((p) => Math.log(p.ohms)) as [number, number, number]
  const [y1, y2, y3] = points.map((p) => 1 / (p.tempC + ZERO_C_IN_K)) as [number, number, number]
  const g2 = (y2 - y1) / (l2 - l1)
  const g3 = (y3 - y1) / (l3 - l1)
  const c = (g3 - g2) / (l3 - l2) / (l1 + l2 + l3)
  const b = g2 - c * (l1 ** 2 + l1 * l2 + l2 ** 2)
  return { a: y1 - (b + l1 ** 2 * c) * l1, b, c }
}
