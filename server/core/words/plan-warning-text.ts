import type { PlanWarning } from '../plan/plan-warning.ts'
import { numberText, shortDifferenceText, shortTempText } from './numbers.ts'
import type { Person } from './person.ts'
import type { WarningNumbers } from './plan-warning-catalogue.ts'
import { wordsOf } from './words-of.ts'

/** A warning as one sentence. `stage`: what its stage is called where the sentence stands. */
export function planWarningText(warning: PlanWarning, stage: string, person: Person): string {
  const { sentences, at } = wordsOf(person.language).planWarnings
  const numbers: WarningNumbers = {
    temp: (tempC) => shortTempText(tempC, person),
    difference: (differenceC) => shortDifferenceText(differenceC, person),
    number: (value) => numberText(value, person),
  }
  // Each sentence takes the warning of its own kind; the type of the pair is lost in the look-up.
  const sentence = sentences[warning.kind] as (w: PlanWarning, n: WarningNumbers) => string
  return at(stage, sentence(warning, numbers))
}
