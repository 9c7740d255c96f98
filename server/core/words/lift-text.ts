import type { LiftTime } from '../watch/lift-time.ts'
import { clockText, shortTempText } from './numbers.ts'
import type { Person } from './person.ts'
import { wordsOf } from './words-of.ts'

/** Whether a bath that cools can be lifted when the alarm clock rings: a sentence, and one more on the other lid. */
export function liftText(lift: LiftTime, person: Person): readonly string[] {
  const words = wordsOf(person.language).lift
  const { verdict, otherLidMs, lid, wakeMs, liftMs, range90Ms } = lift
  const clock = (atMs: number) => clockText(atMs, person)
  const p = {
    under: shortTempText(lift.liftC, person),
    wake: clock(wakeMs),
    at: liftMs === null ? null : clock(liftMs),
    range: range90Ms === null ? null : range90Ms.map(clock).join('–'),
  }
  const other =
    otherLidMs === null
      ? []
      : [words.otherLid(lid === 'on' ? 'off' : 'on', clock(otherLidMs), otherLidMs <= wakeMs)]
  switch (verdict) {
    case 'reached':
      return [words.reached(p.under)]
    case 'before':
      return [words.before(p), ...other]
    case 'perhaps':
      return [words.perhaps(p), ...other]
    case 'not-before':
      return [words.notBefore(p), ...other]
    default:
      return verdict satisfies never
  }
}
