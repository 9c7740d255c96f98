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
