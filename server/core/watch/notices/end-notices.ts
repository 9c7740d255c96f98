import { passedMs } from '../cooling-track.ts'
import { goodsIn } from '../pot-state.ts'
import type { PotView } from '../pot-view.ts'
import { type NoticeRule, nothing } from './notice-rule.ts'

/** The goods have been in for as long as they may. */
export const outByDue: NoticeRule = (view, notes) => {
  const dueMs = outByMs(view)
  if (dueMs === null || notes.outByTold || view.atMs < dueMs) return nothing(notes)
  return { notes: { ...notes, outByTold: true }, told: [{ notice: 'out-by-due', dueMs }] }
}

/**
 * When they must be out: counted from when they went into this bath. A cool-down is still the bath of the
 * stage before, so there an earlier entry counts.
 */
export function outByMs({ stage, run, pot }: PotView): number | null {
  if (run === null || stage === null || !('outByMin' in stage) || stage.outByMin === undefined) return null
  if (!goodsIn(pot)) return null
  const { inMs } = pot.goods
  const fromMs = stage.kind === 'cool' ? (inMs ?? run.startedMs) : Math.max(inMs ?? 0, run.startedMs)
  return fromMs + stage.outByMin * 60_000
}

/** One reading is not a bath; a probe lifted out passes any temperature in seconds. */
const STEADY_MS = 30_000

/** The bath is as cool as planned: the goods can be lifted. */
export const coolEnough: NoticeRule = ({ stage, run, tempC, atMs }, notes) => {
  if (stage?.kind !== 'cool' || notes.coolEnoughMs !== null || tempC === null) return nothing(notes)
  if (tempC > stage.coolToC)
    return nothing(notes.coolSinceMs === null ? notes : { ...notes, coolSinceMs: null })
  const warm = run?.cooling?.warm ?? null
  const coolSinceMs = notes.coolSinceMs ?? passedMs(warm, { atMs, tempC }, stage.coolToC)
  if (atMs - coolSinceMs < STEADY_MS) return nothing({ ...notes, coolSinceMs })
  return {
    notes: { ...notes, coolSinceMs, coolEnoughMs: coolSinceMs },
    told: [{ notice: 'cool-enough', sinceMs: coolSinceMs }],
  }
}
