type Point = readonly [atMs: number, tempC: number]

/**
 * At most `most` points (≥ 2) of a trace by time: the lowest and the highest of each slot of time, in their order, so
 * that no peak is drawn away. A trace that is short enough comes back as it is.
 */
export function thinPoints(points: readonly Point[], most: number): readonly Point[] {
  const first = points[0]
  if (first === undefined || points.length <= most) return points
  const slotMs = (points.at(-1)![0] - first[0] + 1) / Math.max(1, Math.floor(most / 2))
  const kept: Point[] = []
  let slot = 0
  let low = first
  let high = first
  for (const point of points) {
    const own = Math.floor((point[0] - first[0]) / slotMs)
    if (own !== slot) {
      kept.push(...inOrder(low, high))
      slot = own
      low = point
      high = point
    } else if (point[1] < low[1]) low = point
    else if (point[1] > high[1]) high = point
  }
  return [...kept, ...inOrder(low, high)]
}

const inOrder = (low: Point, high: Point): readonly Point[] =>
  low === high ? [low] : low[0] < high[0] ? [low, high] : [high, low]
