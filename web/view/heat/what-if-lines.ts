import type { RangedSeconds, WhatIfAnswer } from '#core/wire/burner'
import { dialMarkText } from '#core/words/numbers'
import type { WhatIfDraft, WhatIfGoal } from '../../state/what-if-draft.ts'
import type { Catalogue } from '../words/catalogue.ts'
import type { Format } from '../words/format.ts'

type Words = Catalogue['heat']

/** What the curve says, in sentences. */
export function whatIfLines(
  answer: WhatIfAnswer,
  draft: WhatIfDraft,
  goal: WhatIfGoal | null,
  w: Words,
  f: Format,
): readonly string[] {
  return [
    ...windowLines(answer, draft, goal, w, f),
    ...(goal?.coolToC === undefined || draft.startC <= goal.coolToC ? [] : [coolLine(answer, w, f)]),
    ...(answer.peakC > draft.startC + 0.5 ? [w.peak(f.temp(answer.peakC))] : []),
    steadyLine(answer, w, f),
    ...(goal?.windowC === undefined ? [] : [holdLine(answer, w, f)]),
  ].concat(answer.isGuess ? [w.guessTitle] : [])
}

const span = (seconds: number, f: Format): string => f.span(seconds * 1000)

function windowLines(
  { reachesS, leavesS, passesCeilingS }: WhatIfAnswer,
  { startC }: WhatIfDraft,
  goal: WhatIfGoal | null,
  w: Words,
  f: Format,
): string[] {
  if (goal?.windowC === undefined) return []
  const [lowC, highC] = goal.windowC
  const isIn = startC >= lowC && startC <= highC
  const ceiling = passesCeilingS === null ? [] : [w.passesCeiling(span(passesCeilingS, f))]
  if (reachesS === null) return [w.neverReaches, ...ceiling]
  const leaves = leavesS === null ? [] : [w.leaves(span(leavesS, f))]
  const stays = leavesS === null && isIn ? [w.stays] : []
  return [isIn ? w.isIn : reachesLine(reachesS, w, f), ...leaves, ...stays, ...ceiling]
}

function reachesLine({ value, early90, late90 }: RangedSeconds, w: Words, f: Format): string {
  return late90 === null
    ? w.reachesLate(span(value, f), span(early90, f))
    : w.reaches(span(value, f), span(early90, f), span(late90, f))
}

function coolLine({ coolEnoughS }: WhatIfAnswer, w: Words, f: Format): string {
  if (coolEnoughS === null) return w.notCool
  const { value, early90, late90 } = coolEnoughS
  return late90 === null
    ? w.coolAfterOpen(span(value, f))
    : w.coolAfter(span(value, f), span(early90, f), span(late90, f))
}

function steadyLine({ steadyC, boilingC }: WhatIfAnswer, w: Words, f: Format): string {
  return steadyC === null
    ? w.wouldBoil(f.temp(boilingC))
    : w.settles(f.temp(steadyC.value), f.number(steadyC.low90), f.number(steadyC.high90))
}

function holdLine({ holdDial }: WhatIfAnswer, w: Words, f: Format): string {
  if (holdDial === null) return w.noHold
  const mark = dialMarkText(Math.round(holdDial.value * 10) / 10, f.person)
  return w.holds(mark, f.amount(holdDial.low90), f.amount(holdDial.high90))
}
