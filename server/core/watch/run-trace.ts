import { type Point, type Stretch, piecesOf } from './hold-pieces.ts'
import { type HoldClock, bookPiece, restartHold } from './hold-clock.ts'

export interface Range {
  readonly minC: number
  readonly maxC: number
}

/** What the readings of a stage have come to so far. Small and never changed, so it can be kept and gone back to. */
export interface RunTrace {
  readonly last: Point | null
  readonly clock: HoldClock | null
  /** All believed readings of the stage. */
  readonly range: Range | null
  /** Those since the hold began, or since the entry that may become its begin. */
  readonly holdRange: Range | null
}

export interface GoodsChange {
  readonly atMs: number
  readonly goodsIn: boolean
}

export interface GoodsTrail {
  /** At the last reading. */
  readonly goodsIn: boolean
  /** What has changed since, in time order. */
  readonly changes: readonly GoodsChange[]
}

const widened = (range: Range | null, tempC: number): Range =>
  range === null
    ? { minC: tempC, maxC: tempC }
    : { minC: Math.min(range.minC, tempC), maxC: Math.max(range.maxC, tempC) }

/** The trace after one more stretch; `counts`: the reading at its end lies in the stage. */
export function bookStretch(trace: RunTrace, stretch: Stretch, goods: GoodsTrail, counts: boolean): RunTrace {
  const { to } = stretch
  const clock = trace.clock === null ? null : bookHold(trace.clock, stretch, goods)
  return {
    last: to,
    clock,
    range: counts ? widened(trace.range, to.tempC) : trace.range,
    holdRange: clock === null ? null : holdRange(trace, clock, stretch, counts),
  }
}

function bookHold(clock: HoldClock, stretch: Stretch, goods: GoodsTrail): HoldClock {
  const goodsIn = (atMs: number) =>
    !clock.needsGoods || (goods.changes.findLast((c) => c.atMs <= atMs)?.goodsIn ?? goods.goodsIn)
  const cutsMs = clock.needsGoods ? goods.changes.map((c) => c.atMs) : []
  return piecesOf(stretch, clock.bounds, goodsIn, cutsMs).reduce(bookPiece, clock)
}

function holdRange(trace: RunTrace, clock: HoldClock, stretch: Stretch, counts: boolean): Range | null {
  if (clock.entryMs === null) return null
  const sameEntry = trace.clock?.entryMs === clock.entryMs
  const kept = sameEntry ? trace.holdRange : null
  const withFrom = !sameEntry && stretch.from.atMs >= clock.entryMs ? widened(kept, stretch.from.tempC) : kept
  return counts ? widened(withFrom, stretch.to.tempC) : withFrom
}

/** As if the goods went in only now. */
export const withoutHold = (trace: RunTrace): RunTrace => ({
  ...trace,
  clock: trace.clock === null ? null : restartHold(trace.clock),
  holdRange: null,
})
