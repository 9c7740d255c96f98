/**
 * Degrees on the scale and degrees of difference convert differently (10 °C reads 50 °F, 10 °C warmer is 18 °F
 * warmer): two pairs of functions, never mixed.
 */

/** A temperature, °C → °F. */
export const fahrenheit = (tempC: number): number => (tempC * 9) / 5 + 32

/** A temperature, °F → °C. */
export const celsius = (tempF: number): number => ((tempF - 32) * 5) / 9

/** A difference or a rate, °C → °F. */
export const differenceF = (dropC: number): number => (dropC * 9) / 5

/** A difference or a rate, °F → °C. */
export const differenceC = (dropF: number): number => (dropF * 5) / 9
