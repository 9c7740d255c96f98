import { goodsIn } from '../pot-state.ts'
import type { PotView } from '../pot-view.ts'
import { type AlarmRule, OFF, UNKNOWN } from './alarm-rule.ts'

/** A rate at the plan's maximum is allowed; a straight line fitted to readings hits it only so nearly, °C/min. */
const AT_MOST_OVER = 0.005

const judge = (view: PotView, rateCPerMin: number | null, limit: number | undefined) => {
  if (limit === undefined || !goodsIn(view.pot)) return null
  if (rateCPerMin === null) return UNKNOWN
  return rateCPerMin > limit + AT_MOST_OVER ? ({ is: 'on' } as const) : OFF
}

/** The goods are in and the bath's rate over three minutes is over the plan's maximum. */
export const heatingTooFast: AlarmRule = {
  alarm: 'heating-too-fast',
  judge(view) {
    const { stage } = view
    const limit = stage !== null && 'maxHeatingCPerMin' in stage ? stage.maxHeatingCPerMin : undefined
    return judge(view, view.rateCPerMin, limit)
  },
}

/** The same downwards; a step (goods, a jug of water) is not cooling and starts the three minutes anew. */
export const coolingTooFast: AlarmRule = {
  alarm: 'cooling-too-fast',
  judge(view) {
    const { stage, rateCPerMin } = view
    const limit = stage !== null && 'maxCoolingCPerMin' in stage ? stage.maxCoolingCPerMin : undefined
    return judge(view, rateCPerMin === null ? null : -rateCPerMin, limit)
  },
}
