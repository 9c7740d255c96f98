/** IEC 60751:2022, the three constants of industrial platinum; °C⁻¹, °C⁻², °C⁻⁴. */
const A = 3.9083e-3
const B = -5.775e-7
const C = -4.183e-12

/** Resistance at `tempC` (−200…850 °C) of a sensor of `ohms0` at 0 °C, ohms; IEC 60751 equations 1 and 2. */
export function platinumOhms(ohms0: number, tempC: number): number {
  const quadratic = 1 + A * tempC + B * tempC ** 2
  return ohms0 * (tempC >= 0 ? quadratic : quadratic + C * (tempC - 100) * tempC ** 3)
}

/** °C at this resistance; NaN below what the equation can have (under 18 % of `ohms0`, −200 °C). */
export function platinumC(ohms0: number, ohms: number): number {
  const ratio = ohms / ohms0
  if (!(ratio > 0.18)) return NaN
  const tempC = (-A + Math.sqrt(A ** 2 - 4 * B * (1 - ratio))) / (2 * B)
  return tempC >= 0 ? tempC : belowZero(ratio, tempC)
}

/** Newton's steps on the equation below 0 °C; the quadratic's root is within 2.5 °C of it. */
function belowZero(ratio: number, startC: number): number {
  let tempC = startC
  for (let i = 0; i < 5; i++) {
    const slope = A + 2 * B * tempC + C * (4 * tempC ** 3 - 300 * tempC ** 2)
    tempC -= (platinumOhms(1, tempC) - ratio) / slope
  }
  return tempC
}
