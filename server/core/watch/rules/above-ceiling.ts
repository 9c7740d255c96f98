import { bathTempAt } from '../pot-view.ts'
import { type ProbeSense, lagOf } from '../probe-sense.ts'
import { ceilingOf } from '../stage-window.ts'
import { type AlarmRule, UNKNOWN } from './alarm-rule.ts'

const SWING_C = 0.01

/**
 * The hottest probe's estimate, or two of its readings running, are over the ceiling. The ceiling itself is
 * allowed. Two readings need no estimate: a filter must not be able to hide them.
 */
export const aboveCeiling: AlarmRule = {
  alarm: 'above-ceiling',
  judge({ stage, run, pot, hottestC, atMs, dial }, { deadbandC }) {
    const limitC = stage === null ? null : ceilingOf(stage)
    if (limitC === null) return null
    const fromMs = run?.startedMs ?? atMs
    const overSinceMs = earliest(pot.probes.map((p) => overSince(p, limitC, fromMs, atMs)))
    if (hottestC === null && overSinceMs === null) return UNKNOWN
    if (overSinceMs !== null || pot.probes.some((p) => isOver(p, limitC, atMs))) {
      const reason = dial !== null && dial > 0 ? { reason: 'burner-up' as const } : {}
      return { is: 'on', limitC, ...reason, ...(overSinceMs === null ? {} : { sinceMs: overSinceMs }) }
    }
    return { is: hottestC! <= limitC - deadbandC ? 'off' : 'between', limitC }
  },
}

/** A lagging probe may be over before its readings are, once it is more than a swing of the filter. */
function isOver(sense: ProbeSense, limitC: number, atMs: number): boolean {
  const tempC = bathTempAt(sense, atMs)
  if (tempC === null || tempC <= limitC) return false
  return (sense.last?.tempC ?? limitC) > limitC || (lagOf(sense) > 0 && tempC > limitC + SWING_C)
}

/** The first of the stage's readings that have run over the limit up to now, if there are two or more. */
function overSince(
  { recent, place, last }: ProbeSense,
  limitC: number,
  fromMs: number,
  atMs: number,
): number | null {
  if (place.kind !== 'in' || last === null || atMs - last.atMs > 60_000) return null
  const lastUnder = recent.findLastIndex((p) => p.tempC <= limitC)
  const over = recent.slice(lastUnder + 1).filter((p) => p.atMs >= fromMs)
  return over.length >= 2 ? over[0]!.atMs : null
}

const earliest = (times: readonly (number | null)[]): number | null => {
  const known = times.filter((t): t is number => t !== null)
  return known.length === 0 ? null : Math.min(...known)
}
