/** Grams in an avoirdupois ounce, exact by definition (international pound, 1959). */
const G_PER_OZ = 28.349523125
/** Litres in a US liquid gallon, exact by definition (231 cubic inches). */
const L_PER_US_GALLON = 3.785411784

export const ounces = (weightG: number): number => weightG / G_PER_OZ
export const gramsFromOunces = (weightOz: number): number => weightOz * G_PER_OZ
export const usGallons = (volumeL: number): number => volumeL / L_PER_US_GALLON
export const litresFromUsGallons = (volumeGal: number): number => volumeGal * L_PER_US_GALLON
