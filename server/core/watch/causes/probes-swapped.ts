import type { PotView } from '../pot-view.ts'
import type { Cause, StandingCause, SwapSide, SwapSuspect } from './cause.ts'
import { byId } from './cause.ts'

/** Closer than this the two baths can't be told apart, °C. */
const APART_C = 5
/** Both have moved toward each other by this much faster than water can. */
const MOVED_C = 3
/** Near enough to the other's level. */
const NEAR_C = 2
/** A probe shows its new bath within a minute. */
const WITHIN_MS = 60_000
const SINGLE_ALARMS = ['above-ceiling', 'probe-out', 'below-window', 'near-boil', 'above-window'] as const

interface Now {
  readonly view: PotView
  readonly probe: string
  readonly nowC: number
  /** Up to 45 s before. */
  readonly thenC: number
}

/** Two probes that run toward each other's level; kept for a minute, until they are there or not. */
export function suspectSwap(views: readonly PotView[], before: SwapSuspect | null): SwapSuspect | null {
  const atMs = views[0]?.atMs ?? 0
  if (before !== null) return atMs - before.sinceMs <= WITHIN_MS ? before : null
  const all = views.map(nowOf).filter((n): n is Now => n !== null)
  for (const warm of all)
    for (const cool of all)
      if (warm.thenC - cool.thenC >= APART_C && crosses(warm, cool))
        return { sinceMs: atMs, warm: sideOf(warm), cool: sideOf(cool) }
  return null
}

const crosses = (warm: Now, cool: Now): boolean =>
  warm.thenC - warm.nowC >= MOVED_C && cool.nowC - cool.thenC >= MOVED_C

const sideOf = ({ view, probe, thenC }: Now): SwapSide => ({
  potId: view.pot.potId,
  probe,
  beforeC: thenC,
})

function nowOf(view: PotView): Now | null {
  const { probe, run } = view
  const last = probe?.recent.at(-1)
  const first = probe?.recent[0]
  if (probe === null || last === undefined || first === undefined || run === null) return null
  return { view, probe: probe.probe, nowC: last.tempC, thenC: first.tempC }
}

/** While it may be a swap, one alarm must not become three. */
export const inhibitedBySwap = ({ warm, cool }: SwapSuspect): Pick<Cause, 'potIds' | 'inhibits'> => ({
  potIds: [cool.potId, warm.potId],
  inhibits: SINGLE_ALARMS,
})

/** Each reads what the other did. The pot that now reads hot comes first: it may truly be over its ceiling. */
export function findSwap(views: readonly PotView[], suspect: SwapSuspect | null): Cause | null {
  if (suspect === null) return null
  const { warm, cool } = suspect
  if (!reads(views, warm, cool.beforeC) || !reads(views, cool, warm.beforeC)) return null
  return {
    alarm: 'probes-swapped',
    ...inhibitedBySwap(suspect),
    sinceMs: suspect.sinceMs,
    reason: 'probes-swapped',
  }
}

function reads(views: readonly PotView[], side: SwapSide, tempC: number): boolean {
  const probe = byId(views, side.potId)?.probe
  const last = probe?.recent.at(-1)
  return probe?.probe === side.probe && last !== undefined && Math.abs(last.tempC - tempC) <= NEAR_C
}

/** Over when a probe was assigned anew, or a stage has ended. */
export function swapIsOver(cause: StandingCause, views: readonly PotView[]): boolean {
  return cause.potIds.some((id) => {
    const view = byId(views, id)
    return view === undefined || view.run === null || (view.probe?.assignedMs ?? 0) > cause.raisedMs
  })
}
