import { goodsIn } from '../pot-state.ts'
import { binNow } from '../stage-run.ts'
import { type NoticeRule, nothing } from './notice-rule.ts'

export const holdStarted: NoticeRule = ({ run }, notes) => {
  const beganMs = run?.trace.clock?.beganMs ?? null
  if (beganMs === null || notes.holdStarted) return nothing(notes)
  return {
    notes: { ...notes, holdStarted: true, turnedMs: notes.turnedMs ?? beganMs },
    told: [{ notice: 'hold-started', sinceMs: beganMs }],
  }
}

export const holdDone: NoticeRule = ({ run }, notes) => {
  const doneMs = run?.trace.clock?.doneMs ?? null
  if (doneMs === null || notes.holdDone) return nothing(notes)
  return { notes: { ...notes, holdDone: true }, told: [{ notice: 'hold-done', dueMs: doneMs }] }
}

/** A pause shorter than this is a dip of a stir, for the trace alone. */
const PAUSE_MS = 30_000

/** The clock of a hold that has started stands, or runs again. */
export const holdPaused: NoticeRule = ({ run, atMs }, notes) => {
  if (run === null || !notes.holdStarted || notes.holdDone) return nothing(notes)
  const counts = binNow(run, atMs) === 'inWindow'
  const offSinceMs = counts ? null : (notes.offSinceMs ?? atMs)
  const onSinceMs = counts ? (notes.onSinceMs ?? atMs) : null
  const isSame = offSinceMs === notes.offSinceMs && onSinceMs === notes.onSinceMs
  const next = isSame ? notes : { ...notes, offSinceMs, onSinceMs }
  if (!notes.paused && next.offSinceMs !== null && atMs - next.offSinceMs >= PAUSE_MS)
    return { notes: { ...next, paused: true }, told: [{ notice: 'hold-paused', sinceMs: next.offSinceMs }] }
  if (notes.paused && next.onSinceMs !== null && atMs - next.onSinceMs >= PAUSE_MS)
    return { notes: { ...next, paused: false }, told: [{ notice: 'hold-resumed', sinceMs: next.onSinceMs }] }
  return nothing(next)
}

/** Goods lie in a running hold: every so many minutes since its begin or the last turn they want turning. */
export const turnDue: NoticeRule = ({ stage, pot, atMs }, notes) => {
  if (stage?.kind !== 'hold' || stage.turnEveryMin === undefined || notes.turnedMs === null)
    return nothing(notes)
  if (!notes.holdStarted || notes.holdDone || !goodsIn(pot)) return nothing(notes)
  const dueMs = notes.turnedMs + stage.turnEveryMin * 60_000
  if (atMs < dueMs) return nothing(notes)
  return { notes: { ...notes, turnedMs: dueMs }, told: [{ notice: 'turn-due', dueMs }] }
}
