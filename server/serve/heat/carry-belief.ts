import { faded, withLitres, withNewBurner } from '#core/bath/evidence'
import { guessPot, type PotBelief } from '#core/bath/pot-belief'
import type { Burner, Vessel } from '#core/bath/vessel'

const DAY_MS = 86_400_000

/** So much may have changed from one fill to the next at least and at most, days. */
const LEAST_DAYS = 0.25
const MOST_DAYS = 4

/** What is believed of a pot at a moment. */
export interface Known {
  readonly belief: PotBelief
  readonly atMs: number
}

/**
 * What is believed at a later moment of the pot as it stands then: faded by the days between, scaled to its litres,
 * and without what was known of a burner that was changed in between.
 */
export function carryBelief(
  known: Known | null,
  to: { readonly vessel: Vessel; readonly atMs: number; readonly burnerChangesMs: readonly number[] },
): PotBelief {
  const { vessel, atMs, burnerChangesMs } = to
  if (known === null) return guessPot(vessel)
  const days = Math.min(MOST_DAYS, Math.max(LEAST_DAYS, (atMs - known.atMs) / DAY_MS))
  const scaled = withLitres(faded(known.belief, days), vessel.litres)
  const isOther =
    burnerChangesMs.some((ms) => ms > known.atMs && ms <= atMs) ||
    !isSameBurner(known.belief.vessel.burner, vessel.burner)
  return isOther ? withNewBurner(scaled, vessel) : { ...scaled, vessel }
}

const isSameBurner = (a: Burner, b: Burner): boolean =>
  a.kind === b.kind && a.dialMax === b.dialMax && a.ratedW === b.ratedW
