import type { Point } from './hold-pieces.ts'

/**
 * A probe's time constant from its answer to being put into the bath: a first-order probe covers 63.2 % of
 * a step in one.
 * @param rise readings from the lowest before the dip to the settled one, oldest first
 * @returns seconds, 1…60; `null` when the step is too small or too few readings lie on the slope
 */
export function learnLag(rise: readonly Point[]): number | null {
  const first = rise[0]
  const end = rise.at(-1)
  if (first === undefined || end === undefined || end.tempC - first.tempC < 8) return null
  const stepC = end.tempC - first.tempC
  const left = (p: Point) => (end.tempC - p.tempC) / stepC
  const slope = rise.filter((p) => left(p) <= 0.9 && left(p) >= 0.1)
  const [a, b] = [slope[0], slope.at(-1)]
  if (slope.length < 3 || a === undefined || b === undefined) return null
  const lagS = (b.atMs - a.atMs) / 1000 / Math.log(left(a) / left(b))
  return Number.isFinite(lagS) ? Math.min(60, Math.max(1, lagS)) : null
}
