import type { CautionTexts } from '../plan/cautions.ts'
import type { AdviceCatalogue } from './advice-catalogue.ts'
import type { Catalogue } from './catalogue.ts'
import { ENGLISH_ADVICE } from './english-advice.ts'
import { ENGLISH_CAUTIONS } from './english-cautions.ts'
import { ENGLISH_LIFT } from './english-lift.ts'
import { ENGLISH_MORNING } from './english-morning.ts'
import { ENGLISH_PLAN_WARNINGS } from './english-plan-warnings.ts'
import { ENGLISH_PUSH } from './english-push.ts'
import { ENGLISH } from './english.ts'
import { GERMAN_ADVICE } from './german-advice.ts'
import { GERMAN_CAUTIONS } from './german-cautions.ts'
import { GERMAN_LIFT } from './german-lift.ts'
import { GERMAN_MORNING } from './german-morning.ts'
import { GERMAN_PLAN_WARNINGS } from './german-plan-warnings.ts'
import { GERMAN_PUSH } from './german-push.ts'
import { GERMAN_STARTING } from './german-starting.ts'
import { GERMAN } from './german.ts'
import type { LiftCatalogue } from './lift-catalogue.ts'
import type { MorningCatalogue } from './morning-catalogue.ts'
import type { PlanWarningCatalogue } from './plan-warning-catalogue.ts'
import type { PushCatalogue } from './push-catalogue.ts'

/** All that the core says in one language. */
export interface Words extends Catalogue {
  readonly advice: AdviceCatalogue
  readonly lift: LiftCatalogue
  readonly morning: MorningCatalogue
  readonly planWarnings: PlanWarningCatalogue
  readonly push: PushCatalogue
  readonly cautions: CautionTexts
  /** Texts of the starting points by the English ones; `null`: they are in this language as they stand. */
  readonly starting: Readonly<Record<string, string>> | null
}

const ENGLISH_WORDS: Words = {
  ...ENGLISH,
  advice: ENGLISH_ADVICE,
  lift: ENGLISH_LIFT,
  morning: ENGLISH_MORNING,
  planWarnings: ENGLISH_PLAN_WARNINGS,
  push: ENGLISH_PUSH,
  cautions: ENGLISH_CAUTIONS,
  starting: null,
}
const GERMAN_WORDS: Words = {
  ...GERMAN,
  advice: GERMAN_ADVICE,
  lift: GERMAN_LIFT,
  morning: GERMAN_MORNING,
  planWarnings: GERMAN_PLAN_WARNINGS,
  push: GERMAN_PUSH,
  cautions: GERMAN_CAUTIONS,
  starting: GERMAN_STARTING,
}

const LANGUAGES: Readonly<Record<string, Words>> = { en: ENGLISH_WORDS, de: GERMAN_WORDS }

const named = (language: string): Words | undefined => LANGUAGES[language.split('-')[0]!.toLowerCase()]

/** The words of a language, by its BCP 47 tag; English where there are none yet. */
export const wordsOf = (language: string): Words => named(language) ?? ENGLISH_WORDS

/** Whether the program speaks it. */
export const hasWords = (language: string): boolean => named(language) !== undefined
