import { boilingC } from '../../bath/water.ts'
import type { PotView } from '../pot-view.ts'
import { hasWindow } from '../stage-window.ts'
import { type AlarmRule, UNKNOWN } from './alarm-rule.ts'

/** Water and probe may be this far off before a bath counts as hotter than its boil, °C (weather ±1, see `water`). */
const PAST_BOIL_C = 1.5
const NEAR_C = 1
const TEN_MIN_MS = 10 * 60_000

const boilOf = ({ pot }: PotView): number => boilingC(pot.setup.vessel?.altitudeM ?? 0)

/** Does water boil before it gets there, so surely that neither weather nor salt makes up for it? */
export const isPastBoil = (view: PotView, limitC: number): boolean => limitC > boilOf(view) + PAST_BOIL_C

/** Within 1 °C of the local boiling point, where no boil is planned. */
export const nearBoil: AlarmRule = {
  alarm: 'near-boil',
  judge(view, { deadbandC }) {
    const { stage, hottestC } = view
    const limitC = boilOf(view) - NEAR_C
    if (stage === null || stage.kind === 'rest') return null
    if (hasWindow(stage) && stage.windowC[1] >= limitC) return null
    if (hottestC === null) return UNKNOWN
    if (hottestC >= limitC) return { is: 'on', limitC }
    return { is: hottestC <= limitC + NEAR_C - deadbandC ? 'off' : 'between', limitC }
  },
}

/** It boiled, and now it is hotter than water can be: the water is gone where the probe is. */
export const boilDry: AlarmRule = {
  alarm: 'boil-dry',
  judge(view, { deadbandC }) {
    const { stage, hottestC, course, atMs } = view
    if (stage === null || stage.kind === 'rest') return null
    if (hottestC === null) return UNKNOWN
    const boil = boilOf(view)
    const boiled = course.marks.some((p) => p.atMs >= atMs - TEN_MIN_MS && p.tempC >= boil - NEAR_C)
    if (boiled && hottestC > boil + PAST_BOIL_C) return { is: 'on', limitC: boil }
    return { is: hottestC <= boil - deadbandC ? 'off' : 'between', limitC: boil }
  },
}
