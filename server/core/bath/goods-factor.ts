/** Wet goods make the pot hold this much more heat: about 1 kg to 20 L, twice its weight in water with it. */
export const GOODS_FACTOR = 1.06
