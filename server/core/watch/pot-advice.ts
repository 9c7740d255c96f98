import { dialFor, heatDial, type Standing, steadyC } from '../bath/advise.ts'
import { startOf } from '../bath/forecast.ts'
import { type HeatSense, senseHeat } from '../bath/heat-sense.ts'
import { planHeatUp } from '../bath/heat-up.ts'
import type { PotBelief } from '../bath/pot-belief.ts'
import { type Lid, lossW } from '../bath/pot-model.ts'
import type { Stage } from '../plan/plan.ts'
import type { DialAdvice, PotAdvice } from './dial-advice.ts'
import { dialMark } from './dial-mark.ts'
import { holdMark } from './hold-mark.ts'
import { tunedOnce } from './learned-pot.ts'
import { modelledCoolingS } from './modelled-cooling.ts'
import { type WindowStage, hasWindow } from './stage-window.ts'

export interface AdviceAsk {
  readonly atMs: number
  readonly belief: PotBelief
  readonly isGuess: boolean
  readonly stage: Stage
  readonly tempC: number
  readonly rateCPerMin: number
  readonly dial: number | null
  readonly lid: Lid | null
  /** When a running cool-down is cool enough as it stands; `null`: not known. */
  readonly coolEnoughMs?: number | null
  /** Since when dial and lid stand as they do; `null`: not known. */
  readonly settledSinceMs: number | null
}

/** What to do at the dial now; `null` where there is nothing to say. Holdfast never switches heat. */
export function advisePot(ask: AdviceAsk): PotAdvice | null {
  const sense = ask.isGuess ? null : senseOf(ask)
  const dial = hasWindow(ask.stage) ? dialAdvice(ask, ask.stage) : coolAdvice(ask)
  return dial === null && sense === null ? null : { dial, sense, isGuess: ask.isGuess }
}

const standingOf = ({ belief, lid }: AdviceAsk): Standing => ({
  lid: lid ?? 'on',
  roomC: tunedOnce(belief).model.roomC,
})

function dialAdvice(ask: AdviceAsk, stage: WindowStage): DialAdvice | null {
  const [lowC, highC] = stage.windowC
  const targetC = (lowC + highC) / 2
  const standing = standingOf(ask)
  const hold = holdMark(ask.belief, stage.windowC, standing)
  if (hold.kind === 'unreached') return outOfReach(ask, stage, standing)
  if (hold.kind === 'unsure') return null
  const { mark, holdsC } = hold
  if (ask.tempC > highC) return { kind: 'too-warm', holdDial: mark, holdsC }
  const comesUp = ask.tempC < lowC || isComingUp(ask, targetC, mark)
  const up = comesUp ? heatUpAdvice(ask, stage, targetC, { mark, holdsC }) : null
  return up ?? (ask.tempC < lowC ? null : holdAdvice(ask, stage, mark, holdsC))
}

/** Under this a bath only stands, °C/min. */
const SLOW_C_PER_MIN = 0.15

/** Past the window's low end but still on the way up, so that what was said of turning down goes on to hold. */
const isComingUp = ({ tempC, rateCPerMin, dial }: AdviceAsk, targetC: number, mark: number): boolean =>
  tempC < targetC && rateCPerMin >= SLOW_C_PER_MIN && dial !== null && dial > mark

function outOfReach(ask: AdviceAsk, stage: WindowStage, standing: Standing): DialAdvice | null {
  const { model } = tunedOnce(ask.belief)
  const most = steadyC(ask.belief, model.dialMax, standing)
  return most.high90 < stage.windowC[0]
    ? { kind: 'out-of-reach', mostC: most.value, lid: standing.lid }
    : null
}

/** As near as this the dial stands as advised, as a share of the whole dial. */
const SAME_01 = 0.03

function holdAdvice(
  ask: AdviceAsk,
  { windowC: [lowC, highC] }: WindowStage,
  mark: number,
  holdsC: readonly [number, number],
): DialAdvice {
  const { belief, dial } = ask
  const standing = standingOf(ask)
  const pot = tunedOnce(belief)
  const settled = dial === null ? null : steadyC(belief, dial, standing).value
  const other: Lid = standing.lid === 'on' ? 'off' : 'on'
  const otherDial = dialFor(pot, lossW(pot, other, standing.roomC, (lowC + highC) / 2))
  return {
    kind: 'hold',
    holdDial: mark,
    holdsC,
    isSet: dial !== null && Math.abs(dial - mark) <= SAME_01 * pot.model.dialMax,
    leaves: settled === null ? null : settled > highC ? 'top' : settled < lowC ? 'bottom' : null,
    settlesC: settled === null || settled >= pot.model.boilingC - 0.5 ? null : settled,
    otherLid:
      otherDial === null ? null : { lid: other, dial: dialMark(otherDial, pot.model.dialMax, () => true) },
  }
}

/** Shorter waits are not worth a lid, ms. */
const WORTH_A_LID_MS = 20 * 60_000

/** A time of day without its day is clear so far ahead, ms. */
const NEAR_MS = 20 * 3_600_000

/** The running curve tells how long it takes as it is; the pot's losses tell how much sooner or later otherwise. */
function coolAdvice(ask: AdviceAsk): DialAdvice | null {
  const { stage, coolEnoughMs, atMs, isGuess } = ask
  if (stage.kind !== 'cool' || isGuess || coolEnoughMs === null || coolEnoughMs === undefined) return null
  const leftMs = coolEnoughMs - atMs
  if (leftMs < WORTH_A_LID_MS) return null
  const lid = ask.lid ?? 'on'
  const otherLid: Lid = lid === 'on' ? 'off' : 'on'
  const asIs = modelledCoolingS(ask.belief, ask.tempC, lid, stage.coolToC)
  const other = modelledCoolingS(ask.belief, ask.tempC, otherLid, stage.coolToC)
  if (asIs === null || other === null) return null
  const otherMs = Math.round(atMs + (leftMs * other) / asIs)
  return otherMs - atMs > NEAR_MS ? null : { kind: 'cool', coolToC: stage.coolToC, otherLid, otherMs }
}

/** A bath that comes up this much faster than allowed is told to, as a share of the bound. */
const OVER_01 = 1.1
/** So close to the turning point "now" is the word, °C. */
const NOW_C = 0.3

function heatUpAdvice(
  ask: AdviceAsk,
  stage: WindowStage,
  targetC: number,
  hold: { readonly mark: number; readonly holdsC: readonly [number, number] },
): DialAdvice | null {
  const { belief, tempC, rateCPerMin, dial, atMs } = ask
  const standing = standingOf(ask)
  const pot = tunedOnce(belief)
  const most = heatDial(belief, tempC, standing, stage.maxHeatingCPerMin)
  const isTooFast = stage.maxHeatingCPerMin !== undefined && rateCPerMin > OVER_01 * stage.maxHeatingCPerMin
  const isHeating = dial !== null && dial > hold.mark && !isTooFast
  const heat = isHeating
    ? dial
    : Math.max(
        dialMark(most, pot.model.dialMax, () => true),
        hold.mark,
      )
  const start = startOf(pot, { waterC: tempC, rateCPerMin }, { dial: dial ?? 0, ...standing })
  const plan = planHeatUp(belief, start, targetC, { heat, hold: hold.mark }, standing)
  if (plan === null) return null
  return {
    kind: 'heat-up',
    heatDial: isHeating ? null : heat,
    holdDial: hold.mark,
    turnDownAtC: plan.turnDownAtC,
    isNow: isHeating && plan.turnDownAtC <= tempC + NOW_C,
    peakC: plan.peakC,
    holdsC: hold.holdsC,
    reachesMs: plan.toTargetS === null ? null : Math.round(atMs + plan.toTargetS * 1000),
  }
}

/** The rate speaks of the burner once its element is as warm as it gets. */
const SETTLED_MS = 10 * 60_000

function senseOf(ask: AdviceAsk): HeatSense | null {
  const { settledSinceMs, atMs, belief, tempC, rateCPerMin, stage } = ask
  const dial = stage.kind === 'cool' ? 0 : ask.dial
  const waitMs = Math.max(SETTLED_MS, 4000 * tunedOnce(belief).elementLagS)
  if (dial === null || settledSinceMs === null || atMs - settledSinceMs < waitMs) return null
  const course = { dial, ...standingOf(ask) }
  const sense = senseHeat(belief, { waterC: tempC, rateCPerMin }, course)
  return sense.kind === 'as-expected' ? null : sense
}
