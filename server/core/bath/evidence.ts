import { learnFrom, type Learned } from './learn.ts'
import { DIAL_NODES } from './dial-prior.ts'
import { AT, guessPot, type PotBelief } from './pot-belief.ts'
import type { PotTrace } from './pot-trace.ts'
import type { Vessel } from './vessel.ts'

/**
 * How much may have changed from one day to the next, as the standard deviation of a logarithm: mains and the
 * knob's backlash move all powers and single places of the dial, draughts and the fill move the losses (judged, no
 * source). It keeps old evidence from drowning what is new.
 */
const FROM_DAY_TO_DAY = {
  capacity: 0.01,
  elementLag: 0.05,
  dry: 0.025,
  evaporationOn: 0.1,
  evaporationOff: 0.04,
  power: 0.015,
  place: 0.01,
} as const

/** The belief on another day; `days` scales what may have changed, 1 from one batch to the next. */
export function faded(belief: PotBelief, days = 1): PotBelief {
  const added = belief.mean.map(() => 0)
  added[AT.capacity] = FROM_DAY_TO_DAY.capacity
  added[AT.elementLag] = FROM_DAY_TO_DAY.elementLag
  added[AT.dry] = FROM_DAY_TO_DAY.dry
  added[AT.evaporationOn] = FROM_DAY_TO_DAY.evaporationOn
  added[AT.evaporationOff] = FROM_DAY_TO_DAY.evaporationOff
  const covariance = belief.covariance.map((row, i) =>
    row.map((value, j) => {
      if (i < AT.power || j < AT.power) return i === j ? value + added[i]! ** 2 * days : value
      const together = FROM_DAY_TO_DAY.power ** 2 + (i === j ? FROM_DAY_TO_DAY.place ** 2 : 0)
      return value + together * days
    }),
  )
  return { ...belief, covariance }
}

const ofBurner = (place: number) => place >= AT.power || place === AT.elementLag

/** After a burner was changed or mended: what was known of the pot stays, what was known of the burner goes. */
export function withNewBurner(belief: PotBelief, vessel: Vessel): PotBelief {
  const guess = guessPot(vessel)
  return {
    vessel,
    traces: belief.traces,
    mean: belief.mean.map((value, i) => (ofBurner(i) ? guess.mean[i]! : value)),
    covariance: belief.covariance.map((row, i) =>
      row.map((value, j) => {
        if (ofBurner(i) && ofBurner(j)) return guess.covariance[i]![j]!
        return ofBurner(i) || ofBurner(j) ? 0 : value
      }),
    ),
  }
}

/** The same pot and burner with another fill: what the vessel's physics changes is scaled, the rest is kept. */
export function withLitres(belief: PotBelief, litres: number): PotBelief {
  const vessel = { ...belief.vessel, litres }
  const from = guessPot(belief.vessel)
  const to = guessPot(vessel)
  return {
    ...belief,
    vessel,
    mean: belief.mean.map((value, i) =>
      i >= AT.power && i < AT.power + DIAL_NODES.length ? value : value + to.mean[i]! - from.mean[i]!,
    ),
  }
}

export interface Evidence {
  readonly belief: PotBelief
  /** One for each trace, in their order. */
  readonly learned: readonly Learned[]
}

/** Learns from several traces, the oldest first; what is old fades by a day between them. */
export function learnAll(vessel: Vessel, traces: readonly PotTrace[]): Evidence {
  let belief = guessPot(vessel)
  const learned: Learned[] = []
  for (const trace of traces) {
    const one = learnFrom(belief.traces === 0 ? belief : faded(belief), trace)
    learned.push(one)
    belief = one.belief
  }
  return { belief, learned }
}
