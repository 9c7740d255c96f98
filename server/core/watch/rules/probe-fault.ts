import { type AlarmRule, BETWEEN, OFF } from './alarm-rule.ts'

const IN_A_ROW = 3

/** Three codes or start-up values in a row where readings should be. */
export const probeFault: AlarmRule = {
  alarm: 'probe-fault',
  judge({ stage, probe, atMs }) {
    if (stage === null || stage.kind === 'rest' || probe === null) return null
    if (probe.faultsInRow === 0) return OFF
    if (probe.faultsInRow < IN_A_ROW) return BETWEEN
    return { is: 'on', sinceMs: probe.faultSinceMs ?? atMs }
  },
}
