import type { PotReading } from './pot-reading.ts'
import type { Vessel } from './vessel.ts'
import { vesselPhysics } from './vessel-physics.ts'

/** A dye bath does not change faster than this, °C a minute (trade notes: 2.4 up on a ring, 2 down is not cooling). */
const FASTEST_C_PER_MIN = 4
/** A nameplate may be wrong by this factor, and the guess where there is none by that (judged). */
const STRONGER = { rated: 1.3, unrated: 8 } as const
/** A probe's noise and steps, and what a stir moves, °C. */
const SLACK_C = 1
/** After this long apart the new level is the bath's: something was poured that nobody noted, s. */
const GIVES_IN_S = 600

/** How fast a small pot on a strong burner may rise, °C a minute; never less than what any bath may. */
export function fastestCPerMin({ burner, ...vessel }: Vessel): number {
  const { fullW, capacityJPerC, efficiency01 } = vesselPhysics({ burner, ...vessel })
  const mostW =
    burner.ratedW === undefined ? STRONGER.unrated * fullW : (STRONGER.rated * fullW) / efficiency01
  return Math.max(FASTEST_C_PER_MIN, (60 * mostW) / capacityJPerC)
}

/**
 * The readings that a bath can have had: those that no water could reach from the last believed one (a probe on the
 * bench, a start-up value) are left out.
 */
export function believable(
  readings: readonly PotReading[],
  fastest = FASTEST_C_PER_MIN,
): readonly PotReading[] {
  const kept: PotReading[] = []
  for (const reading of readings) {
    const last = kept.at(-1)
    const apartS = last === undefined ? 0 : (reading.atMs - last.atMs) / 1000
    const reach = SLACK_C + (fastest * apartS) / 60
    const near = last === undefined || Math.abs(reading.tempC - last.tempC) <= reach
    if (near || apartS > GIVES_IN_S) kept.push(reading)
  }
  return kept
}
