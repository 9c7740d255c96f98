import type { MorningAlarm, MorningItem } from '../watch/morning-page.ts'
import { wordsOf } from './words-of.ts'
import { holdSentence } from './hold-sentence.ts'
import { liftText } from './lift-text.ts'
import { type Names, potName } from './names.ts'
import { clockText, decimal, lengthText, tempNumber, tempText } from './numbers.ts'
import type { Person } from './person.ts'

/** One line of the morning page in words. */
export function morningText(item: MorningItem, names: Names, person: Person): string {
  const words = wordsOf(person.language).morning
  const pot = 'potId' in item ? potName(item.potId, names) : ''
  const clock = (atMs: number) => clockText(atMs, person)
  switch (item.kind) {
    case 'alarm':
      return words.alarm(alarmParts(item, names, person))
    case 'hold-short':
      return words.holdShort(
        pot,
        stageName(item.stageId, names),
        lengthText(item.bins.requiredS * 1000),
        holdSentence(item.bins, item, person),
      )
    case 'cooled-unlike-plan':
      return unlikePlan(item, pot, person)
    case 'cooled': {
      const reached = item.reachedMs === null ? null : clock(item.reachedMs)
      const last = item.lastC === null ? null : tempText(item.lastC, person)
      const cooled = words.cooled(pot, tempText(item.coolToC, person), reached, last)
      const lift = item.lift === null || item.lift === undefined ? [] : liftText(item.lift, person)
      return [cooled, ...lift].join(' ')
    }
    case 'gap':
      return words.gap(pot, clock(item.fromMs), clock(item.toMs), lengthText(item.toMs - item.fromMs))
    case 'notice':
      return words.notice(pot, item.notice, clock(item.atMs))
    case 'probe-check-due':
      return words.probeCheckDue(item.probe, item.checkedMs === null)
    default:
      return item satisfies never
  }
}

const stageName = (stageId: string, names: Names): string => names.stages?.[stageId] ?? stageId

function unlikePlan(item: MorningItem & { kind: 'cooled-unlike-plan' }, pot: string, person: Person): string {
  const isFaster = item.timesAsFast >= 1
  const ratio = isFaster ? item.timesAsFast : 1 / item.timesAsFast
  const reason = item.reason === null ? null : wordsOf(person.language).reasons[item.reason]
  return wordsOf(person.language).morning.cooledUnlikePlan(pot, decimal(ratio, person), isFaster, reason)
}

function alarmParts(item: MorningAlarm, names: Names, person: Person) {
  return {
    pot: potName(item.potId, names),
    name: wordsOf(person.language).alarmNames[item.alarm],
    times: item.times,
    since: clockText(item.firstSinceMs, person),
    over: item.lastClearedMs === null ? null : clockText(item.lastClearedMs, person),
    peak: item.peakC === null ? null : tempText(item.peakC, person),
    limit: item.limitC === null ? null : tempNumber(item.limitC, person),
    isAcknowledged: item.isAcknowledged,
  }
}
