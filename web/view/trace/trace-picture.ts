import type { Stretch } from '#core/batch/in-air'
import type { TracePoint } from '../../state/trace-points.ts'
import type { BandedPoint } from '../chart/banded-line.ts'
import type { Levels } from '../chart/levels.ts'

/** What a trace is drawn from. Temperatures °C, times Unix ms. */
export interface TracePicture extends Levels {
  readonly points: readonly TracePoint[]
  /** When the probe was in no bath: drawn as a dotted line. */
  readonly inAir?: readonly Stretch[]
  readonly fromMs: number
  readonly toMs: number
  /** How it goes on if nothing is touched, from now on; `x` is Unix ms. */
  readonly forecast?: readonly BandedPoint[]
  readonly events?: readonly { readonly atMs: number; readonly text: string }[]
}
