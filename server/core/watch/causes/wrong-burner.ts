import { timingOf } from '../alarm-defaults.ts'
import { smoothPart } from '../course.ts'
import type { PotView } from '../pot-view.ts'
import { isFalling } from '../rules/rising.ts'
import { unplannedHeating } from '../rules/unplanned-heating.ts'
import { hasWindow } from '../stage-window.ts'
import type { Cause, StandingCause } from './cause.ts'
import { byId } from './cause.ts'

/** A pot was started this lately, so that the hand may have gone to another knob. */
const LATELY_MS = 20 * 60_000
/** Heat that comes shows by now. */
const SHOWS_MS = 150_000
const LEAST_RISE_C = 0.5

/** One pot heats that isn't meant to, another was started lately and does not. */
export function findWrongBurner(views: readonly PotView[]): Cause | null {
  const timing = timingOf('unplanned-heating', {}, undefined)
  const heating = views.find((v) => unplannedHeating.judge(v, timing)?.is === 'on')
  if (heating === undefined) return null
  const began = unplannedHeating.judge(heating, timing)?.sinceMs ?? heating.atMs
  const meant = views.find((v) => v !== heating && isWaiting(v))
  if (meant === undefined) return null
  return {
    alarm: 'wrong-burner',
    potIds: [heating.pot.potId, meant.pot.potId],
    sinceMs: Math.max(startedMs(meant) ?? began, began),
    reason: 'wrong-burner',
    inhibits: ['unplanned-heating', 'no-heat'],
  }
}

/** Over when the one that was not meant to heat falls again, or the other heats after all. */
export function wrongBurnerIsOver(cause: StandingCause, views: readonly PotView[]): boolean {
  const [heating, meant] = cause.potIds.map((id) => byId(views, id))
  return heating === undefined || meant === undefined || isFalling(heating) || riseC(meant) >= 1
}

function isWaiting(view: PotView): boolean {
  const { stage, tempC, atMs } = view
  const sinceMs = startedMs(view)
  if (stage === null || !hasWindow(stage) || tempC === null || sinceMs === null) return false
  const waitedMs = atMs - sinceMs
  const isDue = waitedMs >= SHOWS_MS && waitedMs <= LATELY_MS
  return isDue && tempC < stage.windowC[0] - 1 && riseC(view) < LEAST_RISE_C
}

/** Since when heat is meant to come: the dial as noted, else the begin of the stage. */
const startedMs = ({ pot, run }: PotView): number | null =>
  run === null ? null : Math.max(run.startedMs, pot.dial?.onSinceMs ?? run.startedMs)

/** Over the lowest since it was started, °C. */
function riseC(view: PotView): number {
  const points = smoothPart(view.course, Math.max(view.atMs - 12 * 60_000, startedMs(view) ?? 0))
  return view.tempC === null || points.length === 0 ? 0 : view.tempC - Math.min(...points.map((p) => p.tempC))
}
