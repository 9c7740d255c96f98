/** A temperature of a bath as it was read: Unix ms UTC, °C. */
export interface PotReading {
  readonly atMs: number
  readonly tempC: number
}
