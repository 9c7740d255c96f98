import { type BathEvent, eventWord } from '../plan/event.ts'
import type { Trace, TraceMoment } from '../watch/trace-moment.ts'

/** One row of a trace file, decoded. */
export type TraceRow = TraceMoment

/**
 * Rows in any order, some of them doubled → each time once, in order. Nothing hangs on the order of the rows
 * in the file: of several temperatures for one time the one nearest to the reading before it is kept, and
 * events of one time have an order of their own.
 */
export function joinRows(rows: readonly TraceRow[], stageIds: readonly string[]): Trace {
  const sorted = [...rows].sort((a, b) => a.atMs - b.atMs)
  const moments: TraceMoment[] = []
  let rejected = 0
  let duplicates = 0
  let lastC: number | null = null
  for (let from = 0; from < sorted.length;) {
    const { atMs } = sorted[from]!
    let to = from + 1
    while (to < sorted.length && sorted[to]!.atMs === atMs) to++
    const group = sorted.slice(from, to)
    const temps = temperatures(group)
    const tempC = nearest(temps.different, lastC ?? firstAfter(sorted, to))
    rejected += group.filter((r) => r.found !== null).length + Math.max(0, temps.different.length - 1)
    duplicates += temps.duplicates
    const found = tempC === null ? (group.find((r) => r.found !== null)?.found ?? null) : null
    moments.push({ atMs, events: eventsOf(group, stageIds), tempC, found })
    lastC = tempC ?? lastC
    from = to
  }
  return { moments, rejected, duplicates }
}

function temperatures(group: readonly TraceRow[]): { different: readonly number[]; duplicates: number } {
  const all = group.map((r) => r.tempC).filter((t): t is number => t !== null)
  const different = [...new Set(all)].sort((a, b) => a - b)
  return { different, duplicates: all.length - different.length }
}

const firstAfter = (sorted: readonly TraceRow[], from: number): number | null => {
  for (let i = from; i < sorted.length; i++) if (sorted[i]!.tempC !== null) return sorted[i]!.tempC
  return null
}

/** Of equally near ones the lower; `null` when there is none. */
function nearest(temps: readonly number[], toC: number | null): number | null {
  const first = temps[0]
  if (first === undefined || toC === null) return first ?? null
  return temps.reduce((best, t) => (Math.abs(t - toC) < Math.abs(best - toC) ? t : best), first)
}

const ORDER: readonly BathEvent['kind'][] = [
  'end',
  'stage',
  'goods-out',
  'goods-in',
  'probe-moved',
  'lid',
  'dial',
  'stir',
  'top-up',
]

/** Each word once; a stage ends before the next begins, and then what was done in it. */
function eventsOf(group: readonly TraceRow[], stageIds: readonly string[]): readonly BathEvent[] {
  if (group.every((r) => r.events.length === 0)) return []
  const byWord = new Map(group.flatMap((r) => r.events).map((e) => [eventWord(e), e]))
  const place = (e: BathEvent) => (e.kind === 'stage' ? stageIds.indexOf(e.stageId) : 0)
  return [...byWord.entries()]
    .sort(
      ([wordA, a], [wordB, b]) =>
        ORDER.indexOf(a.kind) - ORDER.indexOf(b.kind) || place(a) - place(b) || (wordA < wordB ? -1 : 1),
    )
    .map(([, event]) => event)
}
