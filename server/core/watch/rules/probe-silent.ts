import type { PotState } from '../pot-state.ts'
import { type AlarmRule, OFF } from './alarm-rule.ts'

/** From here on an unwatched burner is an emergency. */
export const UNWATCHED_MS = 180_000
const ONCE_A_MINUTE_MS = 60_000

/**
 * No reading comes. A probe that answers each minute is given half a period more, or it would ring at every
 * late reading. Codes in place of readings are `probe-fault`'s.
 */
export const probeSilent: AlarmRule = {
  alarm: 'probe-silent',
  judge({ stage, probe, run, pot, atMs, dial }, { onDelayMs }) {
    if (stage === null || stage.kind === 'rest' || probe === null) return null
    const startMs = Math.max(probe.assignedMs, run?.startedMs ?? probe.assignedMs)
    const lastMs = probe.last?.atMs ?? startMs
    const sinceMs = wasWatched(pot, startMs) ? lastMs : Math.max(lastMs, startMs)
    // One reading tells no period; it may be a probe that answers once a minute.
    const periodMs = probe.periodMs ?? (probe.last === null ? 0 : ONCE_A_MINUTE_MS)
    const silentMs = atMs - sinceMs
    if (silentMs < Math.max(onDelayMs, 1.5 * periodMs) || probe.faultsInRow >= 3) return OFF
    const urgent = silentMs >= UNWATCHED_MS && dial !== null && dial > 0
    return {
      is: 'on',
      sinceMs,
      reason: 'probe-unplugged',
      ...(urgent ? { urgency: 'at-once' as const } : {}),
    }
  },
}

/** In a rest no probe need answer, so its silence there is not held against the bath that comes after it. */
const wasWatched = ({ ended }: PotState, startMs: number): boolean => {
  const before = ended.at(-1)
  return before !== undefined && before.stage.kind !== 'rest' && before.endedMs === startMs
}
