import { GAP_MS } from '#core/measure/reading'
import type { TracePoint } from './trace-points.ts'

export interface TraceGap {
  readonly fromMs: number
  readonly toMs: number
}

/**
 * Where nothing was read between two times. A trace that was thinned to slots can't tell gaps shorter than
 * two slots. `points`: by time.
 */
export function traceGaps(points: readonly TracePoint[], fromMs: number, toMs: number): readonly TraceGap[] {
  const slotMs = points.length < FULL_POINTS ? 0 : (2 * (toMs - fromMs)) / points.length
  const leastMs = Math.max(GAP_MS, 2 * slotMs)
  const times = [fromMs, ...points.map(([atMs]) => atMs), toMs]
  return times.flatMap((atMs, i) => {
    const before = times[i - 1]
    return before !== undefined && atMs - before > leastMs ? [{ fromMs: before, toMs: atMs }] : []
  })
}

/** So many points are asked for; an answer near that many was thinned. */
export const TRACE_POINTS = 4_000
const FULL_POINTS = TRACE_POINTS * 0.6
