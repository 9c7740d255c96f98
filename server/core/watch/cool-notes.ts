import { rateOver } from './course.ts'
import type { PotView } from './pot-view.ts'
import { quantumOf } from './probe-noise.ts'
import type { StageNotes } from './stage-notes.ts'

const FALLEN_C = 0.3
/** What is still to come after the burner is off shows at its fastest within these minutes. */
const COAST_SEEN_MS = 6 * 60_000

/** What a cool-down is judged against; kept up with each reading. A step starts it anew at the new level. */
export function stepCoolNotes(view: PotView, notes: StageNotes): StageNotes {
  const { stage, run, tempC, atMs, rateCPerMin, course } = view
  if (stage?.kind !== 'cool' || run === null || tempC === null) return notes
  const { lowest } = notes
  const stepped = lowest !== null && lowest.atMs < course.smoothSinceMs && atMs >= course.smoothSinceMs
  const afterStep = stepped && course.smoothSinceMs > run.startedMs
  const highestC = Math.max(notes.highestC ?? tempC, tempC)
  const quantumC = view.probe?.estimate ? quantumOf(view.probe.estimate.noise) : 0
  const coasting = atMs - run.startedMs <= COAST_SEEN_MS && rateCPerMin !== null
  const restarts = lowest === null || afterStep || tempC < lowest.tempC || isStirred(view, lowest.tempC)
  const now = {
    lowest: restarts ? { atMs, tempC } : lowest,
    highestC,
    coastRateCPerMin: coasting
      ? Math.max(notes.coastRateCPerMin ?? rateCPerMin, rateCPerMin)
      : notes.coastRateCPerMin,
    hasFallen: notes.hasFallen || tempC <= highestC - FALLEN_C - quantumC,
  }
  return isNoted(notes, now) ? notes : { ...notes, ...now }
}

type CoolNotes = Pick<StageNotes, 'lowest' | 'highestC' | 'coastRateCPerMin' | 'hasFallen'>

const isNoted = (notes: StageNotes, now: CoolNotes): boolean =>
  notes.lowest === now.lowest &&
  notes.highestC === now.highestC &&
  notes.coastRateCPerMin === now.coastRateCPerMin &&
  notes.hasFallen === now.hasFallen

/** Over the lowest, and yet falling steadily for three minutes: it was lifted by a stir, not by a burner. */
const isStirred = ({ course, atMs, tempC }: PotView, lowestC: number): boolean =>
  tempC !== null && tempC > lowestC + 0.5 && (rateOver(course, atMs, 4 * 60_000) ?? 0) < -0.03
