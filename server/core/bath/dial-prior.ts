import type { Matrix } from './linear.ts'
import type { Burner, BurnerKind } from './vessel.ts'

/** Shares of the dial's way at which the power is a parameter; between them ln power is linear in ln share. */
export const DIAL_NODES = [0.05, 0.1, 0.15, 0.2, 0.3, 0.4, 0.5, 0.6, 0.8, 1] as const

/** What is expected of a dial: ln (power ÷ full power) at `DIAL_NODES`, and how they stray from it together. */
export interface DialPrior {
  readonly logShares: readonly number[]
  readonly covariance: Matrix
}

/** Curves that dials have: power ÷ full power = least + (1 − least) · share^exponent, both anywhere in a range. */
interface DialFamily {
  readonly least: readonly [from: number, to: number]
  readonly exponent: readonly [from: number, to: number]
}

/**
 * A clock of on and off gives about its duty; plates' and induction's steps grow toward the top; a gas tap keeps a
 * least flame (common practice, no source; the ranges are judged, and include a straight dial).
 */
const FAMILIES: Readonly<Record<BurnerKind | 'unknown', DialFamily>> = {
  coil: { least: [0, 0.05], exponent: [0.85, 1.75] },
  plate: { least: [0, 0.05], exponent: [0.85, 1.75] },
  gas: { least: [0, 0.15], exponent: [0.85, 1.75] },
  induction: { least: [0, 0.05], exponent: [0.85, 1.9] },
  unknown: { least: [0, 0.12], exponent: [0.8, 1.9] },
}

/** How far places of a dial stray from such curves: bends that neighbours share, and single marks (judged). */
const STRAY = { bend: 0.1, bendReach: 1.2, mark: 0.03 } as const

/** Curves tried along each range. */
const TRIED = 8

const PRIORS = new Map<BurnerKind | 'unknown', DialPrior>()

/** A dial before any trace: mean and covariance over its family. Its top is the full power by definition. */
export function dialPrior({ kind }: Burner): DialPrior {
  const name = kind ?? 'unknown'
  const known = PRIORS.get(name) ?? momentsOf(curvesOf(FAMILIES[name]))
  PRIORS.set(name, known)
  return known
}

function curvesOf({ least, exponent }: DialFamily): readonly (readonly number[])[] {
  return along(least).flatMap((low) =>
    along(exponent).map((power) => DIAL_NODES.map((share) => Math.log(low + (1 - low) * share ** power))),
  )
}

const along = ([from, to]: readonly [number, number]): number[] =>
  Array.from({ length: TRIED }, (_, i) => from + ((i + 0.5) / TRIED) * (to - from))

function momentsOf(curves: readonly (readonly number[])[]): DialPrior {
  const meanOf = (of: (curve: readonly number[]) => number) =>
    curves.reduce((sum, curve) => sum + of(curve), 0) / curves.length
  const logShares = DIAL_NODES.map((_, i) => meanOf((curve) => curve[i]!))
  const apart = (i: number, j: number) =>
    meanOf((curve) => (curve[i]! - logShares[i]!) * (curve[j]! - logShares[j]!))
  return {
    logShares,
    covariance: DIAL_NODES.map((a, i) => DIAL_NODES.map((b, j) => apart(i, j) + strayCovariance(a, b))),
  }
}

/** A smooth bend (Matérn's covariance of order 3/2 in ln share) and what each mark has of its own. */
function strayCovariance(shareA: number, shareB: number): number {
  const apart = (Math.sqrt(3) * Math.abs(Math.log(shareA / shareB))) / STRAY.bendReach
  const own = shareA === shareB ? STRAY.mark ** 2 : 0
  return STRAY.bend ** 2 * (1 + apart) * Math.exp(-apart) + own
}
