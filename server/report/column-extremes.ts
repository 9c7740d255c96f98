import type { Trace } from '#core/batch/trace-facts'

/**
 * At most two points for each of `columns` slots of time, the lowest and the highest: no peak is lost, and a night
 * at a reading a second doesn't fill the page's file. A trace that is short enough comes back as it is.
 */
export function columnExtremes(trace: Trace, columns: number): Trace {
  if (trace.length <= 2 * columns) return trace
  const fromMs = trace[0]![0]
  const slotMs = (trace.at(-1)![0] - fromMs + 1) / columns
  const kept: (readonly [number, number])[] = []
  let slot = -1
  let low = trace[0]!
  let high = trace[0]!
  const close = () => kept.push(...(low === high ? [low] : low[0] < high[0] ? [low, high] : [high, low]))
  for (const point of trace) {
    const own = Math.floor((point[0] - fromMs) / slotMs)
    if (own !== slot) {
      if (slot >= 0) close()
      slot = own
      low = point
      high = point
    } else if (point[1] < low[1]) low = point
    else if (point[1] > high[1]) high = point
  }
  close()
  return kept
}
