import { type ReadonlySignal, type Signal, signal } from '@preact/signals'
import type { ReadingMessage } from '#core/wire/live'
import type { ServerRequests, TraceAnswer } from './requests.ts'
import { thinPoints } from '#core/measure/thin-points'
import { type TracePoint, addPoint, mergePoints } from './trace-points.ts'

/** The traces of the last hours, by probe: fetched once, then grown by the live readings. */
export interface TraceStore {
  /** The trace of a probe; asking for it the first time fetches what came before. */
  of(probe: string): ReadonlySignal<readonly TracePoint[]>
  add(reading: ReadingMessage): void
  /** After a cut: fetches again what every known probe has missed. */
  refresh(): void
}

/** What a stove card shows, ms. */
export const TRACE_SPAN_MS = 6 * 3_600_000
/** Two points a pixel of a wide screen's card are more than anyone can see. */
const MOST_POINTS = 3_000

/** @param serverNowMs the server's clock, Unix ms. */
export function traceStore(requests: ServerRequests, serverNowMs: () => number): TraceStore {
  const byProbe = new Map<string, Signal<readonly TracePoint[]>>()

  async function load(probe: string, trace: Signal<readonly TracePoint[]>): Promise<void> {
    const toMs = serverNowMs()
    const found = await requests.ask<TraceAnswer>(
      'GET',
      tracePath(probe, toMs - TRACE_SPAN_MS, toMs + 1, MOST_POINTS),
    )
    if (found.ok) trace.value = mergePoints(found.value.points, trace.value)
  }

  return {
    of(probe) {
      const known = byProbe.get(probe)
      if (known !== undefined) return known
      const trace = signal<readonly TracePoint[]>([])
      byProbe.set(probe, trace)
      void load(probe, trace)
      return trace
    },
    add(reading) {
      const trace = byProbe.get(reading.probe)
      if (trace === undefined || reading.tempC === null || reading.verdict !== 'good') return
      const longer = addPoint(trace.value, [reading.atMs, reading.tempC], TRACE_SPAN_MS)
      trace.value = longer.length > 2 * MOST_POINTS ? thinPoints(longer, MOST_POINTS) : longer
    },
    refresh() {
      for (const [probe, trace] of byProbe) void load(probe, trace)
    },
  }
}

/** `fromMs` is included, `toMs` is not; both Unix ms. */
export function tracePath(probe: string, fromMs: number, toMs: number, points: number): string {
  const query = new URLSearchParams({
    probe,
    from: new Date(fromMs).toISOString(),
    to: new Date(toMs).toISOString(),
    points: String(points),
  })
  return `/api/trace?${query}`
}
