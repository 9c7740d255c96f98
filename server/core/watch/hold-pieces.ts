import { GAP_MS } from '../measure/reading.ts'

/** The bins of a hold, by name. */
export type Bin = 'inWindow' | 'aboveWindow' | 'belowWindow' | 'aboveCeiling' | 'unknown' | 'goodsOut'

/** A stretch of time that lies in one bin. Whole ms, so that sums are exact. */
export interface Piece {
  readonly bin: Bin
  readonly fromMs: number
  readonly toMs: number
}

/** What a temperature is held against. Bounds count as in; `ceilingC` null: there is none. */
export interface HoldBounds {
  readonly lowC: number
  readonly highC: number
  readonly ceilingC: number | null
}

export interface Point {
  readonly atMs: number
  readonly tempC: number
}

/** From one believed reading to the next, and what of it counts. */
export interface Stretch {
  readonly from: Point
  readonly to: Point
  /** Only this part is wanted: the stage began or ended in between. */
  readonly clipFromMs: number
  readonly clipToMs: number
  /** The probe was not in the bath, whatever it read. */
  readonly blind: boolean
}

/**
 * Cuts a stretch into pieces of one bin each. The temperature runs straight from reading to reading; a gap
 * is unknown as a whole, whatever its ends say.
 * @param goodsIn were the goods in at a moment of the stretch; `cutsMs`: when that changed
 */
export function piecesOf(
  stretch: Stretch,
  bounds: HoldBounds,
  goodsIn: (atMs: number) => boolean,
  cutsMs: readonly number[],
): Piece[] {
  const { from, to, clipFromMs, clipToMs } = stretch
  if (clipToMs <= clipFromMs) return []
  if (stretch.blind || to.atMs - from.atMs > GAP_MS)
    return [{ bin: 'unknown', fromMs: clipFromMs, toMs: clipToMs }]
  const cuts = [...crossings(from, to, bounds), ...cutsMs].filter((ms) => ms > clipFromMs && ms < clipToMs)
  const edges = [clipFromMs, ...cuts.sort((a, b) => a - b), clipToMs]
  return edges.slice(1).flatMap((toMs, i) => {
    const fromMs = edges[i]!
    if (toMs <= fromMs) return []
    const middleMs = (fromMs + toMs) / 2
    const bin = goodsIn(middleMs) ? binOf(tempAt(from, to, middleMs), bounds) : 'goodsOut'
    return [{ bin, fromMs, toMs }]
  })
}

/** Which bin a temperature lies in. */
export function binOf(tempC: number, { lowC, highC, ceilingC }: HoldBounds): Bin {
  if (tempC < lowC) return 'belowWindow'
  if (tempC <= highC) return 'inWindow'
  return ceilingC !== null && tempC > ceilingC ? 'aboveCeiling' : 'aboveWindow'
}

/** Straight between two readings; beyond them the nearer one. */
export function tempAt(from: Point, to: Point, atMs: number): number {
  if (to.atMs <= from.atMs || from.tempC === to.tempC) return from.tempC
  const part = Math.min(1, Math.max(0, (atMs - from.atMs) / (to.atMs - from.atMs)))
  return from.tempC + part * (to.tempC - from.tempC)
}

/** When the straight line passes a bound, rounded to the millisecond. */
function crossings(from: Point, to: Point, bounds: HoldBounds): number[] {
  const riseC = to.tempC - from.tempC
  if (riseC === 0) return []
  const levels = [bounds.lowC, bounds.highC, bounds.ceilingC].filter((c): c is number => c !== null)
  return levels
    .map((levelC) => (levelC - from.tempC) / riseC)
    .filter((part) => part > 0 && part < 1)
    .map((part) => Math.round(from.atMs + part * (to.atMs - from.atMs)))
}
