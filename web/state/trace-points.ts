/** One point of a trace: Unix ms and °C, corrected. */
export type TracePoint = readonly [atMs: number, tempC: number]

/**
 * Puts a point where its time belongs (late readings come too) and drops what is older than `keepMs` before
 * the newest. The same time twice keeps the first. Pure: returns a new array.
 */
export function addPoint(
  points: readonly TracePoint[],
  point: TracePoint,
  keepMs: number,
): readonly TracePoint[] {
  let at = points.length
  while (at > 0 && points[at - 1]![0] > point[0]) at -= 1
  if (at > 0 && points[at - 1]![0] === point[0]) return points
  const newestMs = Math.max(point[0], points.at(-1)?.[0] ?? point[0])
  return [...points.slice(0, at), point, ...points.slice(at)].filter(([ms]) => ms >= newestMs - keepMs)
}

/** Two traces of one probe as one, by time; of two points of one time the one in `newer` stays. */
export function mergePoints(
  older: readonly TracePoint[],
  newer: readonly TracePoint[],
): readonly TracePoint[] {
  const byTime = new Map([...older, ...newer].map((point) => [point[0], point]))
  return [...byTime.values()].sort((a, b) => a[0] - b[0])
}

/**
 * At most `most` points: the lowest and the highest of each slot of time, in their order, so that no peak is
 * drawn away. `most` ≥ 2.
 */
export function thinPoints(points: readonly TracePoint[], most: number): readonly TracePoint[] {
  if (points.length <= most || points.length === 0) return points
  const slots = Math.max(1, Math.floor(most / 2))
  const startMs = points[0]![0]
  const slotMs = (points.at(-1)![0] - startMs + 1) / slots
  const kept: TracePoint[] = []
  let slot: TracePoint[] = []
  let slotNo = 0
  for (const point of points) {
    const no = Math.floor((point[0] - startMs) / slotMs)
    if (no !== slotNo) {
      kept.push(...extremes(slot))
      slot = []
      slotNo = no
    }
    slot.push(point)
  }
  return [...kept, ...extremes(slot)]
}

function extremes(slot: readonly TracePoint[]): readonly TracePoint[] {
  const first = slot[0]
  if (first === undefined) return []
  let low = first
  let high = first
  for (const point of slot) {
    if (point[1] < low[1]) low = point
    if (point[1] > high[1]) high = point
  }
  if (low === high) return [low]
  return low[0] < high[0] ? [low, high] : [high, low]
}
