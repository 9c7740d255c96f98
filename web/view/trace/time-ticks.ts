const MINUTE_MS = 60_000
const STEPS_MIN = [1, 2, 5, 10, 15, 30, 60, 120, 180, 360, 720, 1440] as const

/**
 * Round times of day between two times, at most `most` of them. `zoneMs`: local time minus UTC there, ms, so
 * that midnight and noon are round where the person is. Empty when the span is empty.
 */
export function timeTicks(fromMs: number, toMs: number, most: number, zoneMs: number): readonly number[] {
  if (!(toMs > fromMs) || most < 1) return []
  const wanted = (toMs - fromMs) / most
  const stepMs = (STEPS_MIN.find((min) => min * MINUTE_MS >= wanted) ?? longStep(wanted)) * MINUTE_MS
  const first = Math.ceil((fromMs + zoneMs) / stepMs) * stepMs - zoneMs
  const count = Math.floor((toMs - first) / stepMs) + 1
  return Array.from({ length: Math.max(0, count) }, (_, i) => first + i * stepMs)
}

/** Whole days beyond the table, minutes. */
const longStep = (wantedMs: number): number => Math.ceil(wantedMs / (1440 * MINUTE_MS)) * 1440
