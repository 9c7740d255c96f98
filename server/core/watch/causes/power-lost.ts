import { rateBefore, rateOver } from '../course.ts'
import type { PotView } from '../pot-view.ts'
import { rateErrorCPerMin } from '../rules/rising.ts'
import { hasWindow } from '../stage-window.ts'
import { type Cause, type StandingCause, byId } from './cause.ts'

const TWO_MIN_MS = 120_000
const NOW_MS = 90_000
/** It did heat, °C/min; now it has lost this share of that and more, and does not heat any longer. */
const HEATED_C_PER_MIN = 0.25
const LEFT = 0.3
const STOPPED_C_PER_MIN = 0.15
/** It heats again, °C/min, and surely so: over the mark of having stopped by more than a probe trembles. */
const BACK_C_PER_MIN = 0.2
const SURE = 2.5
/** Pots on one circuit stop within seconds; the rates show it a little apart. */
const TOGETHER_MS = 60_000
/** Pots without a noted dial may have been turned down by hand; three at a time hardly. */
const MANY = 3

/** Since when each pot's heating has stopped without a hand at the dial; pots that heat on are left out. */
export function stoppedPots(
  views: readonly PotView[],
  before: Readonly<Record<string, number>>,
): Readonly<Record<string, number>> {
  const stopped = views.filter((v) => hasStopped(v, before[v.pot.potId] !== undefined))
  return Object.fromEntries(stopped.map((v) => [v.pot.potId, before[v.pot.potId] ?? v.atMs]))
}

function hasStopped(view: PotView, already: boolean): boolean {
  const { stage, pot, tempC, course, atMs } = view
  if (stage === null || !hasWindow(stage) || tempC === null || tempC >= stage.windowC[0]) return false
  if (pot.dial !== null && (pot.dial.dial === 0 || atMs - pot.dial.notedMs < 2 * TWO_MIN_MS)) return false
  if (already) return !heatsAgain(view)
  const now = rateOver(course, atMs, NOW_MS)
  const earlier = rateBefore(course, atMs, TWO_MIN_MS, TWO_MIN_MS)
  if (now === null || earlier === null || earlier < HEATED_C_PER_MIN) return false
  return now < Math.min(STOPPED_C_PER_MIN, LEFT * earlier)
}

function heatsAgain({ course, atMs, probe }: PotView): boolean {
  const rate = rateOver(course, atMs, NOW_MS)
  return rate !== null && rate >= BACK_C_PER_MIN + SURE * rateErrorCPerMin(probe, NOW_MS)
}

/** Several pots stopped heating together: a breaker, a plug, a meter. */
export function findPowerLost(
  views: readonly PotView[],
  stoppedMs: Readonly<Record<string, number>>,
): Cause | null {
  const stopped = Object.entries(stoppedMs)
  for (const [, firstMs] of stopped) {
    const group = stopped.filter(([, ms]) => ms >= firstMs && ms - firstMs <= TOGETHER_MS).map(([id]) => id)
    const noted = group.every((id) => (byId(views, id)?.dial ?? 0) > 0)
    if (group.length < (noted ? 2 : MANY)) continue
    return {
      alarm: 'power-lost',
      potIds: group,
      sinceMs: firstMs - NOW_MS,
      reason: 'power',
      inhibits: ['no-heat'],
    }
  }
  return null
}

/** Over when one of them heats again, or none of them is to heat any more. */
export function powerIsBack(cause: StandingCause, views: readonly PotView[]): boolean {
  const pots = cause.potIds.map((id) => byId(views, id))
  return (
    pots.some((v) => v !== undefined && heatsAgain(v)) ||
    pots.every((v) => v === undefined || v.stage === null || v.dial === 0)
  )
}
