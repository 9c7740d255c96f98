import type { PotReading } from '#core/bath/pot-reading'
import type { PotEvent } from '#core/bath/pot-trace'
import type { Vessel } from '#core/bath/vessel'
import type { BathEvent } from '#core/plan/event'
import type { Store } from '../../store/store.ts'
import type { BathDay } from './bath-day.ts'
import type { BathSpan } from './bath-spans.ts'

/** How far back the dial and the lid as they stood at the begin may have been noted, ms. */
const BEFORE_MS = 24 * 3_600_000
/** More would not be told apart: the learning takes means of 20 s and more. */
const POINTS = 4000

type TimedEvent = { readonly atMs: number; readonly event: PotEvent }

/** Reads one fill from the record; `null` when no dial was ever noted in it. */
export async function loadDay(
  store: Store,
  potId: string,
  span: BathSpan,
  vessel: Vessel,
): Promise<BathDay | null> {
  const sinceMs = Math.max(span.fromMs - BEFORE_MS, span.notedSinceMs ?? 0)
  const noted = await store.events.ofPot(potId, sinceMs)
  const events = eventsOf(noted, span)
  if (!events.some(({ event }) => event.kind === 'dial')) return null
  const readings: PotReading[] = []
  for (const { probe, startedMs, endedMs } of span.runs) {
    const range = { probe, fromMs: startedMs, toMs: endedMs }
    for (const [atMs, tempC] of await store.readings.trace(range, POINTS)) readings.push({ atMs, tempC })
  }
  const stages = span.runs.flatMap(({ stage, startedMs, endedMs }) =>
    stage === null ? [] : [{ stage, startedMs, endedMs }],
  )
  const told = await store.heat.told(potId, span.fromMs, span.toMs)
  return { vessel, trace: { readings, events }, stages, told }
}

/** What was noted within the span, after the dial and the lid as they stood at its begin. */
function eventsOf(
  noted: readonly { readonly atMs: number; readonly event: BathEvent }[],
  { fromMs, toMs, runs }: BathSpan,
): readonly TimedEvent[] {
  const before = noted.filter((e) => e.atMs < fromMs)
  const standing = (['dial', 'lid'] as const).flatMap((kind) => {
    const last = before.findLast((e) => e.event.kind === kind)
    return last === undefined ? [] : [{ atMs: fromMs, event: potEvent(last.event) }]
  })
  const within = noted
    .filter((e) => e.atMs >= fromMs && e.atMs <= toMs)
    .map(({ atMs, event }) => ({ atMs, event: potEvent(event) }))
  // A cool-down is with the heat off, whether somebody noted that or not.
  const off = runs
    .filter(({ stage }) => stage?.kind === 'cool')
    .map(({ startedMs }): TimedEvent => ({ atMs: startedMs, event: { kind: 'dial', dial: 0 } }))
  return [...standing, ...within, ...off].sort((a, b) => a.atMs - b.atMs)
}

function potEvent(event: BathEvent): PotEvent {
  return event.kind === 'stage' ? { kind: 'stage' } : event
}
