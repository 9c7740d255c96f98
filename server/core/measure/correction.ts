import type { CheckPoint } from './check-point.ts'
import type { FittedLine } from './fit-line.ts'

/**
 * What must be done to a probe's raw value to get °C, from a date on. Raw values are kept for ever, so a
 * correction found later never rewrites what an older trace says.
 */
export type Correction = OffsetCorrection | TwoPointCorrection | LineCorrection

interface Dated {
  /** Holds from this moment on, Unix ms UTC, until a later one begins. */
  readonly fromMs: number
  /** Who found it, and how: both for the record only. */
  readonly who?: string
  readonly note?: string
}

/** `offsetC` is added to the raw value. */
export interface OffsetCorrection extends Dated {
  readonly kind: 'offset'
  readonly offsetC: number
  /** The check that it was found by, where it was one. */
  readonly check?: CheckPoint
}

/** The straight line through two checks; `rawC` differ, or it is no line. */
export interface TwoPointCorrection extends Dated {
  readonly kind: 'two-point'
  readonly low: CheckPoint
  readonly high: CheckPoint
}

/** A least-squares line through several checks. */
export interface LineCorrection extends Dated, FittedLine {
  readonly kind: 'line'
  readonly points: readonly CheckPoint[]
}

/** °C by the correction that holds at `atMs`; the raw value itself when none does. */
export function correctedC(corrections: readonly Correction[], rawC: number, atMs: number): number {
  const correction = correctionAt(corrections, atMs)
  return correction === null ? rawC : applyCorrection(correction, rawC)
}

/** The correction that holds at `atMs`: the latest begun; of two begun at once the later in the list. */
export function correctionAt(corrections: readonly Correction[], atMs: number): Correction | null {
  return corrections.reduce<Correction | null>(
    (best, c) => (c.fromMs <= atMs && (best === null || c.fromMs >= best.fromMs) ? c : best),
    null,
  )
}

/** °C by this correction. */
export function applyCorrection(correction: Correction, rawC: number): number {
  switch (correction.kind) {
    case 'offset':
      return rawC + correction.offsetC
    case 'two-point':
      return throughTwo(correction, rawC)
    case 'line':
      return rawC + correction.atRefC + correction.slope * (rawC - correction.refC)
    default:
      return correction satisfies never
  }
}

function throughTwo({ low, high }: TwoPointCorrection, rawC: number): number {
  return low.trueC + ((rawC - low.rawC) * (high.trueC - low.trueC)) / (high.rawC - low.rawC)
}
