import type { AlarmName } from '../plan/alarm-names.ts'
import type { PotAdvice } from '../watch/dial-advice.ts'
import { dialMarkText } from './numbers.ts'
import type { Person } from './person.ts'
import { wordsOf } from './words-of.ts'

/** A pot as an act at it goes by: the dial as noted, and what is advised there. `null`: not known. */
export interface ActedAt {
  readonly dial: number | null
  readonly advice?: PotAdvice | null
}

/** Alarms that ask for more heat; the others that name a mark ask for less. */
const MORE_HEAT: ReadonlySet<AlarmName> = new Set(['below-window'])

/** What to do about an alarm, with the mark that holds the window where this pot has taught it. */
export function alarmAct(alarm: AlarmName, at: ActedAt | null, person: Person): string {
  const words = wordsOf(person.language)
  const to = words.actsTo[alarm]
  const mark = at === null ? null : learnedMark(at)
  if (to === undefined || mark === null || at === null) return words.acts[alarm]
  // A dial that already stands on the right side of the mark would be turned the wrong way.
  const isPast = at.dial === null || (MORE_HEAT.has(alarm) ? at.dial < mark : at.dial > mark)
  return isPast ? to(dialMarkText(mark, person)) : words.acts[alarm]
}

/** A guess after the kind of burner is no mark to turn to while an alarm stands. */
function learnedMark({ advice = null }: ActedAt): number | null {
  if (advice === null || advice.isGuess || advice.dial === null) return null
  return 'holdDial' in advice.dial ? advice.dial.holdDial : null
}
