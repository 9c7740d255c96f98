import type { Course } from './course.ts'
import type { BathNow } from './forecast.ts'
import { rateSurprise } from './observe.ts'
import type { PotBelief } from './pot-belief.ts'
import { lossW, potModel, powerW, tuned } from './pot-model.ts'

/**
 * What the bath's rate says against what is known of the pot, once dial and lid have stood for some minutes.
 * `no-heat`: the dial is on and no heat comes. `loses-more`/`loses-less`: with the dial off; `ratio` is the loss over
 * the expected one (2: twice as fast, is the lid off?). `unlike`: more or less heat than the dial should give.
 */
export type HeatSense =
  | { readonly kind: 'as-expected' }
  | { readonly kind: 'no-heat'; readonly expectedW: number; readonly foundW: number }
  | { readonly kind: 'loses-more' | 'loses-less'; readonly ratio: number }
  | { readonly kind: 'unlike'; readonly expectedW: number; readonly foundW: number }

/** Standard deviations from which a difference is worth a word. */
const WORTH_A_WORD = 3

/** A loss this far from the expected one, and a share of the heat this small, are seen by their size. */
const MUCH = { more: 1.6, less: 0.6, heat01: 0.25 } as const

export function senseHeat(belief: PotBelief, bath: BathNow, course: Course): HeatSense {
  const surprise = rateSurprise(belief, bath, course)
  if (Math.abs(surprise) < WORTH_A_WORD) return { kind: 'as-expected' }
  const pot = tuned(potModel(belief.vessel), belief.mean)
  const expectedW = powerW(pot, course.dial)
  const lostW = lossW(pot, course.lid, course.roomC, bath.waterC)
  const gainedW = (pot.capacityJPerC * (bath.capacityFactor ?? 1) * bath.rateCPerMin) / 60
  if (expectedW === 0) return lossSense(-gainedW / lostW, lostW)
  const foundW = gainedW + lostW
  return { kind: foundW < MUCH.heat01 * expectedW ? 'no-heat' : 'unlike', expectedW, foundW }
}

function lossSense(ratio: number, lostW: number): HeatSense {
  if (lostW > 0 && ratio > MUCH.more) return { kind: 'loses-more', ratio }
  if (lostW > 0 && ratio < MUCH.less) return { kind: 'loses-less', ratio }
  return { kind: 'as-expected' }
}
