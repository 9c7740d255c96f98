import type { PotReading } from './pot-trace.ts'

/** A bath does not change faster than this, °C a minute (trade notes: 2.4 up on a ring, 2 down is not cooling). */
const FASTEST_C_PER_MIN = 4
/** A probe's noise and steps, and what a stir moves, °C. */
const SLACK_C = 1
/** After this long apart the new level is the bath's: something was poured that nobody noted, s. */
const GIVES_IN_S = 600

/**
 * The readings that a bath can have had: those that no water could reach from the last believed one (a probe on the
 * bench, a start-up value) are left out.
 */
export function believable(readings: readonly PotReading[]): readonly PotReading[] {
  const kept: PotReading[] = []
  for (const reading of readings) {
    const last = kept.at(-1)
    const apartS = last === undefined ? 0 : (reading.atMs - last.atMs) / 1000
    const reach = SLACK_C + (FASTEST_C_PER_MIN * apartS) / 60
    const near = last === undefined || Math.abs(reading.tempC - last.tempC) <= reach
    if (near || apartS > GIVES_IN_S) kept.push(reading)
  }
  return kept
}
