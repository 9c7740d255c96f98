import type { NoticeHappening, TurnDown } from '../watch/happening.ts'
import type { TurnParts } from './catalogue.ts'
import { wordsOf } from './words-of.ts'
import { type Names, potName } from './names.ts'
import { clockText, dialMarkText, tempText } from './numbers.ts'
import type { Person } from './person.ts'

/** A notice in one sentence or two. */
export function noticeText(happening: NoticeHappening, names: Names, person: Person): string {
  const clock = (atMs: number | undefined) => (atMs === undefined ? null : clockText(atMs, person))
  return wordsOf(person.language).notices[happening.notice]({
    pot: potName(happening.potId, names),
    stage: names.stages?.[happening.stageId] ?? happening.stageId,
    temp: happening.tempC === null ? null : tempText(happening.tempC, person),
    due: clock(happening.dueMs),
    since: clock(happening.sinceMs),
    holdFollows: happening.holdFollows === true,
    turn: happening.turn === undefined ? null : turnParts(happening.turn, person),
  })
}

const turnParts = ({ fromDial, toDial, peakC, isLearned }: TurnDown, person: Person): TurnParts => ({
  from: fromDial === null ? null : dialMarkText(fromDial, person),
  to: toDial === null ? null : dialMarkText(toDial, person),
  peak: peakC === null ? null : tempText(peakC, person),
  isLearned,
})
