/** Steps that a hand finds on a dial, the coarsest first, as shares of a whole number or of a long dial's step. */
const STEPS = [0.5, 0.25, 0.1] as const

/**
 * The coarsest mark near `dial` that still does what it should. A dial of 4 has finer marks than one of 10, one of 100
 * coarser ones; where no mark will do, the finest.
 */
export function dialMark(dial: number, dialMax: number, willDo: (mark: number) => boolean): number {
  const unit = dialMax > 20 ? dialMax / 10 : 1
  const marks = STEPS.filter((step) => dialMax > 5 || step < 0.5).map((step) => {
    const size = step * unit
    return Math.min(dialMax, Math.max(size, Math.round(dial / size) * size))
  })
  const found = marks.find(willDo) ?? marks.at(-1)!
  return Number(found.toFixed(4))
}
