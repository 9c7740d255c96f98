import type { HoldBins } from '../plan/outcome.ts'
import type { HoldStage } from '../plan/plan.ts'
import type { Bin, HoldBounds, Piece } from './hold-pieces.ts'

/**
 * The clock of a hold. It begins at the entry into the window with the goods in, once the bath has stayed
 * there `STAY_MS`; from then on every millisecond goes into exactly one bin.
 */
export interface HoldClock {
  readonly bounds: HoldBounds
  readonly requiredMs: number
  readonly needsGoods: boolean
  /** In the window with the goods since then, without a break; a start still to be confirmed. */
  readonly entryMs: number | null
  /** Of the time since the entry, what nobody saw: neither a credit nor held against the start. */
  readonly unseenMs: number
  readonly beganMs: number | null
  readonly doneMs: number | null
  readonly binsMs: Readonly<Record<Bin, number>>
}

/** A bath that only touches the window has not started a hold: it must stay three minutes (common practice). */
const STAY_MS = 180_000

const EMPTY: HoldClock['binsMs'] = {
  inWindow: 0,
  aboveWindow: 0,
  belowWindow: 0,
  aboveCeiling: 0,
  unknown: 0,
  goodsOut: 0,
}

export function startHold(stage: HoldStage): HoldClock {
  const [lowC, highC] = stage.windowC
  return {
    bounds: { lowC, highC, ceilingC: stage.ceilingC ?? null },
    requiredMs: Math.round(stage.holdMin * 60_000),
    needsGoods: stage.goods,
    ...NOT_BEGUN,
  }
}

const NOT_BEGUN = { entryMs: null, unseenMs: 0, beganMs: null, doneMs: null, binsMs: EMPTY } as const

/** The hold begins anew: it turned out that the goods had not been in. */
export const restartHold = (clock: HoldClock): HoldClock => ({
  ...clock,
  ...NOT_BEGUN,
})

/** Books one piece of time. Pieces come in order, without holes. */
export const bookPiece = (clock: HoldClock, piece: Piece): HoldClock =>
  clock.beganMs === null ? bookBefore(clock, piece) : bookAfter(clock, piece)

function bookBefore(clock: HoldClock, piece: Piece): HoldClock {
  const lengthMs = piece.toMs - piece.fromMs
  if (piece.bin === 'unknown' && clock.entryMs !== null)
    return { ...clock, unseenMs: clock.unseenMs + lengthMs }
  if (piece.bin !== 'inWindow')
    return clock.entryMs === null ? clock : { ...clock, entryMs: null, unseenMs: 0 }
  const entryMs = clock.entryMs ?? piece.fromMs
  const stayedMs = piece.toMs - entryMs - clock.unseenMs
  if (stayedMs < STAY_MS) return { ...clock, entryMs }
  const seenMs = stayedMs - lengthMs
  const binsMs = { ...EMPTY, inWindow: seenMs, unknown: clock.unseenMs }
  return bookAfter({ ...clock, entryMs, beganMs: entryMs, binsMs }, piece)
}

function bookAfter(clock: HoldClock, piece: Piece): HoldClock {
  const lengthMs = piece.toMs - piece.fromMs
  const binsMs = { ...clock.binsMs, [piece.bin]: clock.binsMs[piece.bin] + lengthMs }
  const done = clock.doneMs === null && binsMs.inWindow >= clock.requiredMs
  // Only an in-window piece can reach it, and it does so the surplus before its end.
  const doneMs = done ? piece.toMs - (binsMs.inWindow - clock.requiredMs) : clock.doneMs
  return { ...clock, binsMs, doneMs }
}

/** The bins in seconds, as the record keeps them. */
export function binsOf(clock: HoldClock): HoldBins {
  const { binsMs } = clock
  return {
    requiredS: clock.requiredMs / 1000,
    inWindowS: binsMs.inWindow / 1000,
    aboveWindowS: binsMs.aboveWindow / 1000,
    belowWindowS: binsMs.belowWindow / 1000,
    aboveCeilingS: binsMs.aboveCeiling / 1000,
    unknownS: binsMs.unknown / 1000,
    goodsOutS: binsMs.goodsOut / 1000,
  }
}
