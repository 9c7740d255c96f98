import type { AlarmName } from '../../plan/alarm-names.ts'
import { ALARM_DEFAULTS, isInService } from '../alarm-defaults.ts'
import type { AlarmHappening } from '../happening.ts'
import type { PotView } from '../pot-view.ts'
import type { WatchSettings } from '../watch-settings.ts'
import { bridgeIsBack, findBridgeLost } from './bridge-lost.ts'
import { type Cause, type CauseMemory, type StandingCause, byId } from './cause.ts'
import { findPowerLost, powerIsBack, stoppedPots } from './power-lost.ts'
import { findSwap, inhibitedBySwap, suspectSwap, swapIsOver } from './probes-swapped.ts'
import { findWrongBurner, wrongBurnerIsOver } from './wrong-burner.ts'

export interface CausesStep {
  readonly memory: CauseMemory
  readonly happenings: readonly AlarmHappening[]
  /** Pot id → the single alarms that a cause stands for. */
  readonly inhibited: ReadonlyMap<string, ReadonlySet<AlarmName>>
}

/** A moment of what is seen over several pots; comes before each pot is judged by itself. */
export function stepCauses(
  memory: CauseMemory,
  views: readonly PotView[],
  settings: WatchSettings,
): CausesStep {
  const stoppedMs = stoppedPots(views, memory.stoppedMs)
  const swap = suspectSwap(views, memory.swap)
  const { bridgesDown } = memory
  const found = [
    findWrongBurner(views),
    findSwap(views, swap),
    findPowerLost(views, stoppedMs),
    findBridgeLost(views, bridgesDown),
  ].filter((c): c is Cause => c !== null && isInService(c.alarm, settings, undefined))
  const over = memory.standing.filter((c) => isOver(c, views))
  const kept = memory.standing.filter((c) => !over.includes(c)).map((c) => grown(c, found))
  const fresh = found.filter((c) => !kept.some((k) => k.alarm === c.alarm))
  const atMs = views[0]?.atMs ?? 0
  const standing = [...kept, ...fresh.map((c) => Object.assign({ raisedMs: atMs }, c))]
  const happenings = [
    ...over.flatMap((c) => told(c, views, 'cleared')),
    ...fresh.flatMap((c) => told(c, views, 'raised')),
  ]
  const inhibiting = swap === null ? standing : [...standing, inhibitedBySwap(swap)]
  return {
    memory: { stoppedMs, swap, bridgesDown, standing },
    happenings,
    inhibited: inhibitions(inhibiting),
  }
}

/** Pots that came a little later to the same cause belong to it, too. */
function grown(standing: StandingCause, found: readonly Cause[]): StandingCause {
  const more = found.find((c) => c.alarm === standing.alarm)?.potIds ?? []
  const potIds = [...new Set([...standing.potIds, ...more])]
  return potIds.length === standing.potIds.length ? standing : { ...standing, potIds }
}

function isOver(cause: StandingCause, views: readonly PotView[]): boolean {
  switch (cause.alarm) {
    case 'wrong-burner':
      return wrongBurnerIsOver(cause, views)
    case 'probes-swapped':
      return swapIsOver(cause, views)
    case 'power-lost':
      return powerIsBack(cause, views)
    case 'bridge-lost':
      return bridgeIsBack(cause, views)
    default:
      return cause.alarm satisfies never
  }
}

function inhibitions(causes: readonly Pick<Cause, 'potIds' | 'inhibits'>[]) {
  const map = new Map<string, Set<AlarmName>>()
  for (const { potIds, inhibits } of causes)
    for (const potId of potIds) map.set(potId, new Set([...(map.get(potId) ?? []), ...inhibits]))
  return map
}

function told(
  cause: Cause,
  views: readonly PotView[],
  change: 'raised' | 'cleared',
): readonly AlarmHappening[] {
  const potId = cause.potIds[0]!
  const view = byId(views, potId) ?? views[0]
  if (view === undefined) return []
  return [
    {
      kind: 'alarm',
      alarm: cause.alarm,
      change,
      atMs: view.atMs,
      sinceMs: cause.sinceMs,
      potId,
      stageId: view.stage?.id ?? null,
      urgency: ALARM_DEFAULTS[cause.alarm].urgency,
      tempC: view.probe?.last?.tempC ?? null,
      limitC: null,
      rateCPerMin: view.rateCPerMin,
      lastReadingMs: view.probe?.last?.atMs ?? null,
      peakC: null,
      expectedMs: null,
      dial: view.dial,
      potIds: cause.potIds,
      potTempsC: cause.potIds.map((id) => byId(views, id)?.probe?.last?.tempC ?? null),
      reason: cause.reason,
    },
  ]
}
