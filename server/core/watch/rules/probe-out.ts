import { type AlarmRule, OFF } from './alarm-rule.ts'
import { UNWATCHED_MS } from './probe-silent.ts'

/** The probe fell faster than water can: it isn't in the bath, and nobody sees what the bath does. */
export const probeOut: AlarmRule = {
  alarm: 'probe-out',
  judge({ stage, probe, atMs, dial }) {
    if (stage === null || stage.kind === 'rest' || probe === null) return null
    if (probe.place.kind !== 'out') return OFF
    const { sinceMs } = probe.place
    const urgent = atMs - sinceMs >= UNWATCHED_MS && dial !== 0
    return { is: 'on', sinceMs, reason: 'probe-out', ...(urgent ? { urgency: 'at-once' as const } : {}) }
  },
}
