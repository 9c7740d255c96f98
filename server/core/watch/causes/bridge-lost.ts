import type { PotView } from '../pot-view.ts'
import { type Cause, type StandingCause, byId } from './cause.ts'

const SILENT_MS = 60_000
/** The last readings through one bridge lie as close together as its slowest probe's period. */
const TOGETHER_MS = 60_000

/**
 * No probe of any pot answers any more: not each of them alone, but what they all go through. Told by the
 * bridge's own silence, or by two or more pots that fell silent together while none is heard.
 */
export function findBridgeLost(views: readonly PotView[], bridgesDown: readonly string[]): Cause | null {
  const watched = views.filter((v) => v.run !== null && v.run.stage.kind !== 'rest' && v.probe !== null)
  const silent = watched.filter((v) => v.atMs - lastMs(v) >= SILENT_MS)
  if (silent.length === 0 || silent.length < watched.length) return null
  const times = silent.map(lastMs)
  const together = Math.max(...times) - Math.min(...times) <= TOGETHER_MS
  if (bridgesDown.length === 0 && (silent.length < 2 || !together)) return null
  return {
    alarm: 'bridge-lost',
    potIds: silent.map((v) => v.pot.potId),
    sinceMs: Math.max(...times),
    reason: 'bridge-gone',
    inhibits: ['probe-silent'],
  }
}

const lastMs = ({ probe, run }: PotView): number =>
  probe?.last?.atMs ?? Math.max(probe?.assignedMs ?? 0, run?.startedMs ?? 0)

/** Over when one of them is heard again; the others then speak for themselves. */
export const bridgeIsBack = (cause: StandingCause, views: readonly PotView[]): boolean =>
  cause.potIds.some((id) => {
    const view = byId(views, id)
    return view === undefined || view.run === null || view.atMs - lastMs(view) < SILENT_MS
  })
