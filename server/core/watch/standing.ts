import type { Urgency } from '../plan/alarm-names.ts'
import type { AlarmTiming } from './alarm-defaults.ts'
import type { AlarmReason } from './happening.ts'

/**
 * What a rule finds at one moment. `on`: the condition of the alarm holds. `off`: it is gone clearly enough
 * to end the alarm. Neither: in the deadband. `unknown`: nothing can be said, so nothing starts and, above
 * all, nothing ends: lost readings must never look like a bath that came right.
 */
export interface Finding {
  readonly is: 'on' | 'between' | 'off' | 'unknown'
  readonly limitC?: number | null
  /** When the condition began, where the rule knows better than "when it was first found". */
  readonly sinceMs?: number
  /** It needs no on-delay: the rule has waited itself. */
  readonly isSure?: true
  /** When the limit will be passed at the present course. */
  readonly expectedMs?: number
  readonly reason?: AlarmReason
  readonly urgency?: Urgency
}

/** The delays of one alarm as a state. `straying`: found, but not for long enough to call anyone. */
export type Standing =
  | { readonly kind: 'quiet' }
  | { readonly kind: 'straying'; readonly sinceMs: number }
  | {
      readonly kind: 'ringing'
      readonly sinceMs: number
      readonly raisedMs: number
      readonly urgency: Urgency
      /** Since when it has been clear; `null` while it is not. */
      readonly clearSinceMs: number | null
      /** The finding that raised it or last held. */
      readonly finding: Finding
    }

export type StandingChange = 'raised' | 'escalated' | 'cleared' | null

export const QUIET: Standing = { kind: 'quiet' }

/** One moment later. Bounds count: an on-delay of 60 s rings at 60.000 s, not a millisecond before. */
export function stepStanding(
  standing: Standing,
  finding: Finding,
  atMs: number,
  timing: AlarmTiming,
): { readonly standing: Standing; readonly change: StandingChange } {
  return standing.kind === 'ringing'
    ? stepRinging(standing, finding, atMs, timing)
    : stepSilent(standing, finding, atMs, timing)
}

function stepSilent(
  standing: Exclude<Standing, { kind: 'ringing' }>,
  finding: Finding,
  atMs: number,
  timing: AlarmTiming,
) {
  if (finding.is === 'unknown' || finding.is === 'off') return { standing: QUIET, change: null }
  if (finding.is === 'between' && standing.kind === 'quiet') return { standing, change: null }
  if (finding.is === 'between') return { standing: QUIET, change: null }
  const foundMs = standing.kind === 'straying' ? standing.sinceMs : atMs
  const sinceMs = Math.min(foundMs, finding.sinceMs ?? foundMs)
  if (atMs - sinceMs < timing.onDelayMs && finding.isSure !== true)
    return { standing: { kind: 'straying', sinceMs } as const, change: null }
  const urgency = finding.urgency ?? timing.urgency
  const ringing = { kind: 'ringing', sinceMs, raisedMs: atMs, urgency, clearSinceMs: null, finding } as const
  return { standing: ringing, change: 'raised' as const }
}

function stepRinging(
  standing: Extract<Standing, { kind: 'ringing' }>,
  finding: Finding,
  atMs: number,
  timing: AlarmTiming,
) {
  if (finding.is === 'unknown') return { standing, change: null }
  if (finding.is === 'off') {
    const clearSinceMs = standing.clearSinceMs ?? atMs
    if (atMs - clearSinceMs >= timing.offDelayMs) return { standing: QUIET, change: 'cleared' as const }
    return { standing: { ...standing, clearSinceMs }, change: null }
  }
  const held = finding.is === 'on' ? { ...standing, finding } : standing
  const urgent = finding.urgency === 'at-once' && standing.urgency !== 'at-once'
  const urgency = urgent ? ('at-once' as const) : standing.urgency
  return {
    standing: { ...held, clearSinceMs: null, urgency },
    change: urgent ? ('escalated' as const) : null,
  }
}
