import { vesselPhysics } from '../../bath/vessel-physics.ts'
import { learnedPeakC } from '../learned-peak.ts'
import type { PotView } from '../pot-view.ts'
import type { StageNotes } from '../stage-notes.ts'
import { straightCourse } from '../straight-course.ts'
import { aimC, hasWindow } from '../stage-window.ts'
import { turnDownOf } from '../turn-down.ts'
import { type NoticeRule, nothing } from './notice-rule.ts'

/** The window is reached for the first time: goods can go in, or the hold is about to begin. */
export const atWindow: NoticeRule = (view, notes) => {
  const { stage, tempC, atMs } = view
  if (stage === null || !hasWindow(stage) || tempC === null || notes.atWindowMs !== null)
    return nothing(notes)
  const [lowC, highC] = stage.windowC
  if (tempC < lowC) return nothing(notes.cameFromBelow ? notes : { ...notes, cameFromBelow: true })
  if (tempC > highC && !notes.cameFromBelow) return nothing(notes)
  const told = { notice: 'at-window', ...(holdFollows(view) ? { holdFollows: true as const } : {}) } as const
  return { notes: { ...notes, atWindowMs: atMs }, told: [told] }
}

/** Nothing has to go in any more. Goods that nobody has spoken of may still lie beside the pot. */
const holdFollows = ({ stage, pot }: PotView): boolean =>
  stage?.kind === 'hold' && (!stage.goods || pot.goods.kind === 'in')

/** A dyer cuts back when the way left is about five minutes of the present rate (common practice). */
const USUAL_COAST_MIN = 5
/** Under this a bath does not run past anything, °C/min. */
const SLOW_C_PER_MIN = 0.15

/** A bath that was turned down rises more slowly than this share of before. */
const AS_BEFORE_01 = 0.7

/** While heating up, at the window at the latest: turned down now, the bath will coast into it. */
export const turnDownNow: NoticeRule = (view, notes) => {
  const { stage, tempC, rateCPerMin, atMs, dial } = view
  if (stage === null || !hasWindow(stage) || tempC === null || rateCPerMin === null) return nothing(notes)
  if (notes.turnDown !== null) return nothing(heeded(view, notes, notes.turnDown))
  if (dial === 0 || rateCPerMin < SLOW_C_PER_MIN) return nothing(notes)
  const peakC = learnedPeakC(view, aimC(stage)) ?? tempC + rateCPerMin * coastMin(view)
  const coastsIn = peakC >= aimC(stage)
  if (isHolding(view, notes) || !(coastsIn || tempC >= stage.windowC[0])) return nothing(notes)
  const turnDown = { atMs, rateCPerMin, dial, isHeeded: false }
  const told = { notice: 'turn-down-now', turn: turnDownOf(view, stage) } as const
  return { notes: { ...notes, turnDown }, told: [told] }
}

function heeded(view: PotView, notes: StageNotes, turnDown: NonNullable<StageNotes['turnDown']>): StageNotes {
  if (turnDown.isHeeded) return notes
  const noise = view.probe?.estimate?.noise
  const rate = noise === undefined ? null : straightCourse(view.course, noise)
  if (rate === undefined || rate === null || rate.rateCPerMin >= AS_BEFORE_01 * turnDown.rateCPerMin)
    return notes
  return { ...notes, turnDown: { ...turnDown, isHeeded: true } }
}

const isHolding = ({ run }: PotView, notes: StageNotes): boolean =>
  notes.holdStarted || (run?.trace.clock?.beganMs ?? null) !== null

/** Minutes of the present rate that are still to come: the element's store and two minutes of mixing. */
function coastMin({ pot }: PotView): number {
  const { vessel } = pot.setup
  if (vessel === null || vessel.burner.kind === undefined) return USUAL_COAST_MIN
  return vesselPhysics(vessel).elementLagS / 60 + 2
}
