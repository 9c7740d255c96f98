import type { Lid } from '../bath/pot-model.ts'
import { forecastOf } from './forecast-of.ts'
import { modelledCoolingS } from './modelled-cooling.ts'
import type { PotView } from './pot-view.ts'

/** What the dyer gets up for: the clock of the alarm, and the temperature at which the goods can be lifted. */
export interface Wake {
  /** The next time that it rings, Unix ms. */
  readonly wakeMs: number
  readonly liftC: number
}

/** Whether a bath that cools can be lifted when the alarm clock rings. Times Unix ms. */
export interface LiftTime extends Wake {
  /** `reached`: it can now. `perhaps`: the clock rings within the range. */
  readonly verdict: 'reached' | 'before' | 'perhaps' | 'not-before'
  /** `null`: not within a day. */
  readonly liftMs: number | null
  readonly range90Ms: readonly [early: number, late: number] | null
  /** As noted; on where nobody has noted one. */
  readonly lid: Lid
  /** When it would be with the other lid from now on; `null` where the pot's losses are not known. */
  readonly otherLidMs: number | null
}

/** A difference shorter than this is not worth a lid, ms. */
const WORTH_A_LID_MS = 20 * 60_000
const DAY_MS = 24 * 3_600_000

/** Of a running cool-down with a bath that is seen; else `null`. */
export function liftTimeOf(view: PotView, wake: Wake): LiftTime | null {
  const { stage, tempC, atMs, pot } = view
  if (stage?.kind !== 'cool' || tempC === null) return null
  const lid = pot.lid ?? 'on'
  const none = { ...wake, lid, otherLidMs: null }
  if (tempC <= wake.liftC) return { ...none, verdict: 'reached', liftMs: atMs, range90Ms: null }
  const forecast = forecastOf(view, { kind: 'cool', coolToC: wake.liftC })
  const liftMs = forecast?.reachesCoolToMs ?? null
  const range90Ms = forecast?.reachesCoolTo90Ms ?? null
  const verdict = verdictOf(wake.wakeMs, liftMs, range90Ms)
  return { ...none, verdict, liftMs, range90Ms, otherLidMs: otherLidMs(view, wake.liftC, liftMs) }
}

function verdictOf(
  wakeMs: number,
  liftMs: number | null,
  range90Ms: readonly [number, number] | null,
): LiftTime['verdict'] {
  if (liftMs === null) return 'not-before'
  const [early, late] = range90Ms ?? [-Infinity, Infinity]
  if (late <= wakeMs) return 'before'
  return early > wakeMs ? 'not-before' : 'perhaps'
}

/** The running curve says how long it takes as it is; the pot's losses say how much sooner or later otherwise. */
function otherLidMs({ atMs, tempC, pot }: PotView, liftC: number, liftMs: number | null): number | null {
  const { belief } = pot.setup
  if (belief === undefined || belief.traces === 0 || liftMs === null || tempC === null) return null
  const lid = pot.lid ?? 'on'
  const asIsS = modelledCoolingS(belief, tempC, lid, liftC)
  const otherS = modelledCoolingS(belief, tempC, lid === 'on' ? 'off' : 'on', liftC)
  if (asIsS === null || otherS === null) return null
  const otherMs = Math.round(atMs + ((liftMs - atMs) * otherS) / asIsS)
  const isWorthIt = Math.abs(otherMs - liftMs) >= WORTH_A_LID_MS && otherMs - atMs < DAY_MS
  return isWorthIt ? otherMs : null
}
