import { DIAL_NODES, dialPrior } from './dial-prior.ts'
import type { Matrix } from './linear.ts'
import { vesselPhysics } from './vessel-physics.ts'
import type { Vessel } from './vessel.ts'

/**
 * What is believed of a pot on its burner: a normal distribution over the parameters below, in their order.
 * Before any trace it is the handbook's; every trace narrows it.
 */
export interface PotBelief {
  readonly vessel: Vessel
  readonly mean: readonly number[]
  readonly covariance: Matrix
  /** Traces that it was learned from; 0: guesses from the vessel alone. */
  readonly traces: number
}

/** Places in the parameter vector; natural logarithms, but for `evaporationRise` and `bend`. */
export const AT = {
  /** Heat capacity of water and pot, J/°C. */
  capacity: 0,
  /** Seconds by which the element's heat comes late. */
  elementLag: 1,
  /** Time constant of the probe, s. */
  probeLag: 2,
  /** Dry loss through wall and lid, W/°C. */
  dry: 3,
  /** Evaporation with the lid on and off, as a share of an open surface after the handbook. */
  evaporationOn: 4,
  evaporationOff: 5,
  /** How much steeper than the handbook evaporation rises with the vapour pressure (an exponent, no logarithm). */
  evaporationRise: 6,
  /** How much the dry loss per degree grows from 40 to 80 °C above the room (no logarithm). */
  bend: 7,
  /** First of the powers that reach the water, W, at `DIAL_NODES`. */
  power: 8,
} as const

export const PARAMETERS = AT.power + DIAL_NODES.length

/**
 * Counts up when a parameter comes to mean something else, as with another law of evaporation or another order: what
 * was learned before must then be learned anew. 2: evaporation after Carrier.
 */
export const BELIEF_LAWS = 2

/** How far each guess may be off: the standard deviation of its logarithm (judged, no source). */
const SPREAD = {
  capacity: 0.04,
  elementLagKnown: 0.4,
  elementLagUnknown: 0.8,
  probeLag: 0.6,
  dry: 0.35,
  evaporationOn: 1.2,
  evaporationOff: 0.35,
  evaporationRise: 0.07,
  bend: 0.06,
  fullRated: 0.2,
  fullUnrated: 0.7,
} as const

const PROBE_LAG_S = 10

/** Natural convection and radiation alone would give 0.2, a straight line 0 (calculated). */
const BEND = 0.1

/** The guess before any trace, from the vessel alone. */
export function guessPot(vessel: Vessel): PotBelief {
  const physics = vesselPhysics(vessel)
  const logFull = Math.log(physics.fullW)
  const mean = [
    Math.log(physics.capacityJPerC),
    Math.log(physics.elementLagS),
    Math.log(PROBE_LAG_S),
    Math.log(9 * physics.wallM2 + 7 * physics.topM2),
    Math.log(0.021),
    Math.log(0.95),
    0,
    BEND,
    ...dialPrior(vessel.burner).logShares.map((logShare) => logFull + logShare),
  ]
  return { vessel, mean, covariance: guessCovariance(vessel), traces: 0 }
}

function guessCovariance(vessel: Vessel): Matrix {
  const known = vessel.burner.kind !== undefined
  const single = [
    SPREAD.capacity,
    known ? SPREAD.elementLagKnown : SPREAD.elementLagUnknown,
    SPREAD.probeLag,
    SPREAD.dry,
    SPREAD.evaporationOn,
    SPREAD.evaporationOff,
    SPREAD.evaporationRise,
    SPREAD.bend,
  ]
  const dial = dialPrior(vessel.burner).covariance
  const full = vessel.burner.ratedW === undefined ? SPREAD.fullUnrated : SPREAD.fullRated
  return Array.from({ length: PARAMETERS }, (_row, i) =>
    Array.from({ length: PARAMETERS }, (_column, j) => {
      if (i < AT.power || j < AT.power) return i === j ? single[i]! ** 2 : 0
      return full ** 2 + dial[i - AT.power]![j - AT.power]!
    }),
  )
}
